// Nearest known names: distances by hand, order, bounds.
import { didYouMean, editDistance, nearestNames } from '@ductwright/contract/nearest-name'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

describe('the edit distance', () => {
  it.each([
    ['', '', 0],
    ['abc', '', 3],
    ['kitten', 'sitting', 3],
    ['flaw', 'lawn', 2],
    ['title', 'titel', 1],
    ['ca', 'abc', 3],
  ])('from "%s" to "%s" is %d', (from, to, distance) => {
    expect(editDistance(from, to)).toBe(distance)
  })

  it('is the same both ways, 0 only for equal texts, and at most the longer length', () => {
    const word = fc.string({ unit: fc.constantFrom(...'abc'), maxLength: 8 })
    fc.assert(
      fc.property(word, word, (a, b) => {
        const distance = editDistance(a, b)
        expect(editDistance(b, a)).toBe(distance)
        expect(distance === 0).toBe(a === b)
        expect(distance).toBeLessThanOrEqual(Math.max(a.length, b.length))
      }),
    )
  })
})

describe('nearest names', () => {
  const known = ['fan-90-a', 'fan-90-b', 'fan-105-a', 'motor-36', 'esc-160']

  it('come nearest first, ties in code-unit order', () => {
    expect(nearestNames('fan-90-b', known)[0]).toBe('fan-90-b')
    expect(nearestNames('fan-90-c', known.toReversed(), 2)).toEqual(['fan-90-a', 'fan-90-b'])
  })

  it('are blind to case and to - or _', () => {
    expect(nearestNames('FAN_90_A', known, 1)).toEqual(['fan-90-a'])
  })

  it('hold a name that begins alike', () => {
    expect(nearestNames('speed', ['speed_km_h', 'sweep'], 1)).toEqual(['speed_km_h'])
  })

  it('are none when nothing is near', () => {
    expect(nearestNames('zzzzzzzz', known)).toEqual([])
    expect(nearestNames('', known)).toEqual([])
    expect(didYouMean('zzzzzzzz', known)).toBe('')
  })

  it('are bounded for a name of a million characters', () => {
    expect(nearestNames('f'.repeat(1_000_000), known)).toEqual([])
  })

  it('make a question', () => {
    expect(didYouMean('fan-90-c', known)).toBe('; did you mean "fan-90-a" or "fan-90-b"?')
  })
})
