// Numbers and names on their way into words.
import {
  amountOf,
  bare,
  bareSpeed,
  belowDesign,
  clock,
  clockRange,
  duration,
  figure,
  fileAmount,
  fileNumber,
  money,
  odds,
  range,
  shortfall,
  used,
  weight,
  within,
} from '@ductwright/contract/figures'
import { columns, cut, inert } from '@ductwright/contract/inert'
import { wrap } from '@ductwright/report/plain'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { hostileNames } from './fixture.js'

const plain = (text: string) => text.replaceAll('\u00a0', ' ')

describe('figures', () => {
  it('never write a speed that misses its target as if it reached it', () => {
    for (const [speed, words] of [
      [359.6, '359.6'],
      [359.96, '359.9'],
      [359.4, '359.4'],
      [358.9, '359'],
      [360 - 1e-9, '360'],
      [360.4, '360'],
    ] as const)
      expect(bareSpeed(speed, 360)).toBe(words)
    expect(plain(shortfall(0.04))).toBe('0.1 km/h')
    expect(plain(shortfall(12.3))).toBe('12 km/h')
  })

  it('gives every quantity its unit, decimals and thousands', () => {
    expect(plain(figure('speed', 361.6))).toBe('362 km/h')
    expect(plain(figure('rotation', 41249.6))).toBe('41,250 rpm')
    expect(plain(figure('diameter', 78.46))).toBe('78.5 mm')
    expect(plain(figure('angle', 15))).toBe('15°')
    expect(plain(figure('angle', 7.5))).toBe('7.5°')
    expect(fileNumber('angle', 7.5)).toBe('7.5')
    expect(plain(figure('count', 1234567))).toBe('1,234,567')
    expect(plain(figure('force', -1234.56))).toBe('−1,234.6 N')
  })

  it('writes no minus before a zero and no number where none is known', () => {
    expect(bare('speed', -0.3)).toBe('0')
    expect(fileNumber('speed', -0.3)).toBe('0')
    expect(figure('speed', Number.NaN)).toBe('not known')
    expect(figure('distance', null)).toBe('not known')
    expect(fileNumber('distance', null)).toBe('')
  })

  it('carries seconds over into minutes', () => {
    expect(clock(59.6)).toBe('1:00')
    expect(clock(282)).toBe('4:42')
    expect(plain(duration(3599.7))).toBe('60:00 min')
  })

  it('keeps whole money whole and shows cents where there are any', () => {
    expect(plain(money(845, 'EUR'))).toBe('845 EUR')
    expect(amountOf(1242.5)).toBe('1,242.50')
    expect(amountOf(0.1 + 0.2)).toBe('0.30')
    expect(amountOf(99.999)).toBe('100')
    expect(fileAmount(1242.5)).toBe('1242.50')
  })

  it('rounds bounds to keep to inward, and writes none where nothing is left between them', () => {
    expect(plain(within('station', 409.2, 427.9))).toBe('410 to 427 mm')
    expect(plain(within('station', 409, 427))).toBe('409 to 427 mm')
    expect(within('station', 412.4, 412.6)).toBe('')
  })

  it('says how far from the design load, on either side', () => {
    expect(plain(belowDesign(0.25))).toBe('25 % below the design load')
    expect(plain(belowDesign(0.247))).toBe('24 % below the design load')
    expect(plain(belowDesign(-0.031))).toBe('4 % above the design load')
  })

  it('never lets a broken limit read as a kept one', () => {
    expect(plain(used(1.004))).toBe('100.4 %')
    expect(plain(used(0.996))).toBe('99.6 %')
    expect(plain(used(0.93))).toBe('93 %')
    expect(plain(used(1))).toBe('100 %')
  })

  it('rounds a band outward, with the decimals of its quantity', () => {
    expect(plain(range('speed', 286.9, 321.1))).toBe('286 to 322')
    expect(plain(range('speed', 286, 322))).toBe('286 to 322')
    expect(plain(range('ratio', 0.57, 1.1))).toBe('0.57 to 1.10')
    expect(plain(range('power', 4037.3, 10_596.2))).toBe('4,037 to 10,597')
    expect(plain(range('percent', -3.2, 4.1))).toBe('−4 to 5')
    expect(plain(clockRange(245.9, 299.2))).toBe('4:05 to 5:00')
  })

  it('never tells a band narrower than it is', () => {
    const bound = fc.double({ min: -1e5, max: 1e5, noNaN: true })
    fc.assert(
      fc.property(bound, bound, fc.constantFrom('speed', 'force', 'ratio', 'coefficient'), (a, b, quantity) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)]
        const [from, to] = plain(range(quantity, low, high))
          .split(' to ')
          .map((number) => Number(number.replaceAll(',', '').replace('−', '-')))
        // What binary numbers cannot hold: a millionth of the last place.
        expect(from).toBeLessThanOrEqual(low + 1e-6)
        expect(to).toBeGreaterThanOrEqual(high - 1e-6)
        expect(to! - from!).toBeLessThanOrEqual(high - low + 2)
      }),
    )
  })

  it('gives odds as a bet does, rounded down', () => {
    expect(plain(odds(0.89))).toBe('8 in 10')
    expect(plain(odds(0.9))).toBe('9 in 10')
    expect(plain(odds(0.957))).toBe('95 in 100')
    expect(plain(odds(0.07))).toBe('7 in 100')
    expect(plain(odds(0.29))).toBe('2 in 10')
    expect(plain(odds(1))).toBe('at least 99 in 100')
    expect(plain(odds(0))).toBe('less than 1 in 100')
  })

  it('weighs small things in grams', () => {
    expect(plain(weight(0.085))).toBe('85 g')
    expect(plain(weight(4.316))).toBe('4.32 kg')
  })

  it('means the same number in a file as in a sentence', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
        const sentence = Number(bare('voltage', value).replaceAll(',', '').replace('−', '-'))
        expect(sentence).toBe(Number(fileNumber('voltage', value)))
      }),
    )
  })
})

describe('inert text', () => {
  const dangerous = /[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u206f\u061c\ufeff]/u

  it.each(hostileNames)('leaves nothing that acts in %j', (name) => {
    expect(inert(name)).not.toMatch(dangerous)
  })

  it('keeps any text on one line without marks that act, and does so once and for all', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        const once = inert(text)
        expect(once).not.toMatch(dangerous)
        expect(once).not.toMatch(/\p{Surrogate}/u)
        expect(inert(once)).toBe(once)
      }),
    )
  })

  it('shows what it took away and keeps ordinary letters of any script', () => {
    expect(inert('a\u202eb')).toBe('a\ufffdb')
    expect(inert('a\r\n\tb')).toBe('a b')
    expect(inert('\ud800x')).toBe('\ufffdx')
    expect(inert('Döner 90 № 3 風扇')).toBe('Döner 90 № 3 風扇')
  })

  it('measures and cuts by columns', () => {
    expect(columns('風扇 a')).toBe(6)
    expect(columns(cut('風扇風扇風扇', 7))).toBeLessThanOrEqual(7)
    expect(cut('abcdef', 4)).toBe('abc…')
  })

  it('wraps to the width whatever the words are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), fc.integer({ min: 20, max: 100 }), (text, width) => {
        for (const line of wrap(inert(text), width, '  ')) expect(columns(line)).toBeLessThanOrEqual(width)
      }),
    )
  })
})
