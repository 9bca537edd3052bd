// What nobody writes by mistake: everything is refused with faults, nothing else is thrown, nothing is taken in.
import { InputError } from '@ductwright/contract/fault'
import { parseRequest } from '@ductwright/contract/parse-request'
import { parseSetup } from '@ductwright/contract/parse-setup'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { broken, faultsOf } from './faults-of.js'
import { full, least } from './sample-requests.js'

const withRaw = (json: string): unknown =>
  JSON.parse(`{"target":{"speed_km_h":360},"airframe":{"id":"jet-one"},${json}}`)

describe('hostile requests', () => {
  it.each([
    ['null', null],
    ['a number', 5],
    ['a text', 'request'],
    ['a list', [least]],
    ['true', true],
  ])('that are %s and no object are refused', (_name, json) => {
    expect(broken(() => parseRequest(json))).toEqual([' type'])
  })

  it('that are missing are refused', () => {
    expect(broken(() => parseRequest(undefined))).toEqual([' required'])
  })

  it.each([
    ['bigint', { ...least, title: 5n }],
    ['function', { ...least, title: () => 'x' }],
    ['date', { ...least, title: new Date(0) }],
    ['map', { ...least, mass: new Map() }],
  ])('with a %s, which JSON cannot hold, are refused', (_name, json) => {
    expect(faultsOf(() => parseRequest(json)).map((fault) => fault.rule)).toEqual(['json'])
  })

  it('with numbers too large to hold are refused by name', () => {
    const json = withRaw('"field":{"elevation_m":1e999,"runway_m":"1e400 m"},"budget":-1e999')
    const faults = faultsOf(() => parseRequest(json))
    expect(broken(() => parseRequest(json))).toEqual([
      '/budget finite',
      '/field/elevation_m finite',
      '/field/runway_m finite',
    ])
    expect(faults.find((fault) => fault.pointer === '/field/elevation_m')?.value).toBe('Infinity')
  })

  it('nested 100,000 deep are refused without running out of stack', () => {
    const depth = 100_000
    const lists = withRaw(`"owned":${'['.repeat(depth)}${']'.repeat(depth)}`)
    const objects = withRaw(`"mass":${'{"a":'.repeat(depth)}1${'}'.repeat(depth)}`)
    expect(broken(() => parseRequest(lists))).toEqual([' depth'])
    expect(broken(() => parseRequest(objects))).toEqual([' depth'])
  })

  it('that contain themselves are refused', () => {
    const round: Record<string, unknown> = { ...least }
    round['mass'] = round
    expect(broken(() => parseRequest(round))).toEqual([' depth'])
  })

  it('with a million entries are refused as too large', () => {
    expect(broken(() => parseRequest({ ...least, owned: Array(1_000_000).fill('a') }))).toEqual([' size'])
    const keys = Object.fromEntries(Array.from({ length: 100_000 }, (_, i) => [`k${i}`, i]))
    expect(broken(() => parseRequest({ ...least, ...keys }))).toEqual([' size'])
  })

  it('with thousands of faults list the first 200 and count the rest', () => {
    const keys = Object.fromEntries(Array.from({ length: 3000 }, (_, i) => [`k${i}`, i]))
    const faults = faultsOf(() => parseRequest({ ...least, ...keys }))
    expect(faults).toHaveLength(201)
    expect(faults.at(-1)).toMatchObject({ rule: 'more', value: '2800' })
  })

  it.each(['__proto__', 'constructor', 'prototype'])(
    'with the key %s anywhere are refused and pollute nothing',
    (key) => {
      const json = withRaw(`"${key}":{"polluted":true},"mass":{"${key}":{"polluted":true}}`)
      expect(broken(() => parseRequest(json))).toEqual([' forbidden-key', '/mass forbidden-key'])
      expect(({} as Record<string, unknown>)['polluted']).toBeUndefined()
    },
  )

  it.each(['toString', 'hasOwnProperty', 'valueOf', '__defineGetter__'])(
    'with the inherited name %s as a field are refused',
    (key) => {
      expect(broken(() => parseRequest(withRaw(`"${key}":1`)))).toEqual([`/${key} unknown-field`])
    },
  )

  it.each([
    ['a line break', 'Answer\r\nBcc: other@example.org'],
    ['NUL', 'Answer\u0000'],
    ['a line separator', 'Answer\u2028'],
    ['a turned direction', 'Answer \u202egpj.exe'],
    ['an isolated direction', 'Answer \u2066'],
    ['half a character', 'Answer \ud800'],
    ['a delete character', 'Answer \u007f'],
  ])('with %s in the title are refused, and the message shows it escaped', (_name, title) => {
    const [fault, ...more] = faultsOf(() => parseRequest({ ...least, title }))
    expect(more).toEqual([])
    expect(fault).toMatchObject({ pointer: '/title', rule: 'control-character' })
    expect(`${fault?.value}${fault?.message}`).not.toMatch(/[\p{Cc}\p{Zl}\p{Cs}\u202e\u2066]/u)
  })

  it('with such characters in a key are refused, and the pointer and message show them escaped', () => {
    const faults = faultsOf(() => parseRequest({ ...least, 'bad\r\nkey\u202e': 1 }))
    expect(faults[0]).toMatchObject({ pointer: '', rule: 'forbidden-key' })
    expect(JSON.stringify(faults)).not.toMatch(/\\r|\\n|\u202e/)
  })

  it('with markup in the title are taken as the text they are', () => {
    expect(parseRequest({ ...least, title: '<script>alert(1)</script>' }).title).toBe('<script>alert(1)</script>')
  })

  it('with long texts are refused without echoing them', () => {
    const [fault] = faultsOf(() => parseRequest({ ...least, title: 'x'.repeat(1_000_000) }))
    expect(fault).toMatchObject({ pointer: '/title', rule: 'length' })
    expect(JSON.stringify(fault).length).toBeLessThan(300)
  })

  it('with two addresses in one are refused', () => {
    expect(broken(() => parseRequest({ ...least, address: 'a@b.co, c@d.co' }))).toEqual(['/address address'])
    expect(broken(() => parseRequest({ ...least, address: ['a@b.co'] }))).toEqual(['/address type'])
  })
})

function onlyInputErrors(read: () => unknown): void {
  try {
    read()
  } catch (error) {
    expect(error).toBeInstanceOf(InputError)
    const { faults } = error as InputError
    expect(faults.length).toBeGreaterThan(0)
    for (const fault of faults) expect(fault.pointer).toMatch(/^(\/([^~]|~0|~1)*)?$/u)
  }
}

/** A full request with one value somewhere replaced. */
const mutated = fc.tuple(fc.nat(), fc.jsonValue()).map(([which, value]) => {
  const request = structuredClone(full) as Record<string, unknown>
  const places: (() => void)[] = []
  const visit = (at: Record<string, unknown>): void => {
    for (const key of Object.keys(at)) {
      places.push(() => {
        at[key] = value
      })
      const child = at[key]
      if (typeof child === 'object' && child !== null) visit(child as Record<string, unknown>)
    }
  }
  visit(request)
  places[which % places.length]!()
  return request
})

describe('reading arbitrary JSON', () => {
  it('throws nothing but InputError, with proper pointers', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (json) => {
        onlyInputErrors(() => parseRequest(json))
        onlyInputErrors(() => parseSetup(json))
      }),
      { numRuns: 300 },
    )
  })

  it('throws nothing but InputError when one value of a good request is replaced', () => {
    fc.assert(
      fc.property(mutated, (json) => onlyInputErrors(() => parseRequest(json))),
      { numRuns: 600 },
    )
  })

  it('leaves what it reads unchanged', () => {
    const before = JSON.stringify(full)
    parseRequest(full)
    expect(JSON.stringify(full)).toBe(before)
  })
})
