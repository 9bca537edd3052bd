// Broken JSON is refused with the line and column of the first character that cannot stand there.
import { BrokenJson, parseJsonText } from '@ductwright/api/json-text'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

describe('a body that is JSON', () => {
  it('reads as the engine reads it, whatever it holds', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = JSON.stringify(value, null, 1)
        expect(parseJsonText(text)).toEqual(JSON.parse(text))
      }),
    )
  })
})

describe('a body that is not JSON', () => {
  const cases: readonly (readonly [string, string, number, number])[] = [
    ['nothing at all', '', 1, 1],
    ['a missing value', '{"a": }', 1, 7],
    ['a missing comma', '{"a": 1\n "b": 2}', 2, 2],
    ['a comma too many in an object', '{"a": 1,}', 1, 9],
    ['a comma too many in a list', '[1, 2,]', 1, 7],
    ['single quotes', "{'a': 1}", 1, 2],
    ['a bare word', '{"a": yes}', 1, 7],
    ['a number with a leading zero', '[01]', 1, 2],
    ['a comment', '{"a": 1} // one', 1, 10],
    ['an end too early', '{"a": [1, 2', 1, 12],
    ['a string without an end', '{"a": "b}', 1, 10],
    ['a line break in a string', '{"a": "b\nc"}', 1, 9],
    ['an escape that is none', '{"a": "b\\x"}', 1, 9],
    ['the wrong bracket', '{"a": [1}', 1, 9],
    ['two values', '{} {}', 1, 4],
    ['a colon too many', '{"a":: 1}', 1, 6],
  ]
  it.each(cases)('%s', (_name, text, line, column) => {
    expect(() => parseJsonText(text)).toThrow(BrokenJson)
    try {
      parseJsonText(text)
    } catch (error) {
      expect(error).toMatchObject({ line, column })
      expect((error as Error).message).toContain(`line ${line}, column ${column}`)
    }
  })

  it('nested 33 deep, while brackets in a string are only text', () => {
    expect(() => parseJsonText('['.repeat(33) + ']'.repeat(33))).toThrow(
      'nested deeper than 32 levels at line 1, column 33',
    )
    expect(parseJsonText(`${'['.repeat(32)}"[[\\"[[["${']'.repeat(32)}`)).toHaveLength(1)
  })

  it('never points outside the text, wherever a good one is cut', () => {
    fc.assert(
      fc.property(fc.object(), fc.nat(), (value, at) => {
        const whole = JSON.stringify(value)
        const cut = whole.slice(0, at % whole.length)
        try {
          parseJsonText(cut)
          expect.unreachable('a cut object is no JSON')
        } catch (error) {
          expect(error).toBeInstanceOf(BrokenJson)
          expect((error as BrokenJson).column).toBeLessThanOrEqual(cut.length + 1)
        }
      }),
    )
  })
})
