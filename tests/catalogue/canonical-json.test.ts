// One spelling for equal values; SHA-256 against a published value.
import { byCodeUnit, canonicalJson, sha256Hex } from '@ductwright/catalogue/canonical-json'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

describe('canonicalJson', () => {
  it('sorts keys by code unit at every depth and writes no spaces', () => {
    expect(canonicalJson({ b: [1, { d: null, c: 'x y' }], a: true, B: -0, é: 1e21 })).toBe(
      '{"B":0,"a":true,"b":[1,{"c":"x y","d":null}],"é":1e+21}',
    )
  })

  it('takes undefined properties as absent', () => {
    expect(canonicalJson({ a: undefined, b: 1 })).toBe('{"b":1}')
  })

  it.each([
    ['NaN', Number.NaN],
    ['Infinity', Number.POSITIVE_INFINITY],
    ['a function', () => 1],
    ['undefined in a list', [undefined]],
    ['a big integer', 1n],
  ])('refuses %s', (_name, value) => {
    expect(() => canonicalJson(value)).toThrow(RangeError)
  })

  it('reads back as the same value, and is its own canonical form', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value)
        expect(canonicalJson(JSON.parse(text))).toBe(text)
        // JSON has no −0, so the comparison is with what plain JSON keeps of the value.
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)))
      }),
      { numRuns: 300 },
    )
  })

  it('does not depend on the order in which properties were set', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
        const reversed = Object.fromEntries(Object.entries(value).reverse())
        expect(canonicalJson(reversed)).toBe(canonicalJson(value))
      }),
    )
  })
})

describe('sha256Hex', () => {
  it('gives the value printed for "abc" in FIPS 180 (cited from memory)', () => {
    expect(sha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  })
})

describe('byCodeUnit', () => {
  it('orders as no locale does: capitals first, digits before letters', () => {
    expect(['b', 'A', 'a', '10', '9', 'ä'].sort(byCodeUnit)).toEqual(['10', '9', 'A', 'a', 'b', 'ä'])
  })
})
