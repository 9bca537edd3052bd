// Notes of what was worked out before: only the same calculation of the same input finds one, what JSON cannot hold is never
// noted, and a text that is not whole, or of other models, is no notes.
import { sha256Hex } from '@ductwright/contract/canonical-json'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { isJson, PlainTexts } from '@ductwright/pipeline/plain-text'
import { WorkedBefore } from '@ductwright/pipeline/worked-before'
import { describe, expect, it } from 'vitest'

const twice = ({ value }: { readonly value: number }) => ({ doubled: 2 * value })

/** Text of notes with one calculation in them. */
function noted(value = 3): string {
  const notes = WorkedBefore.none()
  notes.of('twice', { value }, twice)
  return notes.used()
}

describe('a note', () => {
  it('stands in for the same calculation of the same input, in the same run and in a later one', () => {
    const notes = WorkedBefore.none()
    const values = [1, 2].map(() => notes.of('twice', { value: 3 }, twice))
    expect([notes.worked, values]).toEqual([1, [{ doubled: 6 }, { doubled: 6 }]])
    const later = WorkedBefore.from(notes.used())
    const never = () => {
      throw new Error('worked out again')
    }
    expect(later.of('twice', { value: 3 }, never)).toStrictEqual({ doubled: 6 })
    expect([later.worked, later.used()]).toEqual([0, notes.used()])
  })

  it('is not found by another calculation or another input, however near', () => {
    const notes = WorkedBefore.from(noted())
    notes.of('thrice', { value: 3 }, ({ value }) => ({ tripled: 3 * value }))
    for (const value of [3 + 2 ** -51, -3, Number.NaN, Number.POSITIVE_INFINITY, 0, -0]) {
      notes.of('twice', { value }, twice)
    }
    expect(notes.worked).toBe(7)
  })

  it('drops out when a run does not use it', () => {
    const notes = WorkedBefore.from(noted())
    notes.of('twice', { value: 4 }, twice)
    expect(notes.used()).toBe(noted(4))
  })

  it('is not made of what JSON would change', () => {
    for (const value of [-0, Number.NaN, Number.POSITIVE_INFINITY, undefined, [undefined], { at: new Map() }]) {
      const notes = WorkedBefore.none()
      expect(notes.of('same', { key: 1 }, () => value)).toBe(value)
      expect([isJson(value), notes.worked, notes.used()]).toEqual([false, 1, WorkedBefore.none().used()])
    }
    // biome-ignore lint/suspicious/noSparseArray: what a list with a hole becomes is asked here
    expect(isJson([1, , 2])).toBe(false)
    expect(isJson({ a: [null, true, 'text', 1e-300, { b: 0 }] })).toBe(true)
  })
})

describe('a text', () => {
  it('that is damaged, foreign or of other models holds no notes', () => {
    const text = noted()
    const other = text.replace(MODEL_VERSION, '0.0.1')
    const body = text.slice(text.indexOf('\n') + 1)
    const texts = [
      null,
      '',
      '{}',
      '\n',
      other,
      body,
      text.slice(0, -1),
      text.replace('6', '7'),
      `${text}x`,
      `other-notes/1 ${MODEL_VERSION} ${sha256Hex(body)}\n${body}`,
    ]
    for (const read of texts) {
      const notes = WorkedBefore.from(read)
      expect(notes.of('twice', { value: 3 }, twice)).toEqual({ doubled: 6 })
      expect(notes.worked, String(read)).toBe(1)
      expect(notes.used()).toBe(text)
    }
    expect(other).not.toBe(text)
  })
})

describe('the text of an input', () => {
  const textOf = (value: unknown) => new PlainTexts().of(value)

  it('is the same for equal data in any order of keys, and another for any other', () => {
    expect(textOf({ b: [1, { d: null, c: 'x' }], a: true })).toBe(textOf({ a: true, b: [1, { c: 'x', d: null }] }))
    const different = [
      ...[0, -0, 1, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, null, undefined, false, '', '0'],
      ...['NaN', 'null', [], [0], [[0]], [0, 0], {}, { a: undefined }, { a: 0 }, { a: '0' }, { 'a":0,"b': 0 }],
      ...[{ a: 0, b: 0 }, Float64Array.of(0), Float64Array.of(-0), Float64Array.of(0, 0), 0.1, 0.1 + 2 ** -56],
    ]
    expect(new Set(different.map(textOf)).size).toBe(different.length)
  })

  it('is refused to what is no plain data', () => {
    for (const value of [
      () => 1,
      Symbol('x'),
      1n,
      new Map(),
      new Date(0),
      [new Set()],
      { a: { b: Int8Array.of(1) } },
    ]) {
      expect(() => textOf(value)).toThrow(RangeError)
    }
  })
})
