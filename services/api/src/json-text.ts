// Reads a JSON body and says where it breaks. The engine's own message carries no position for short texts, so a broken
// text is walked once more, without recursion, to the first character that cannot stand there. Depth is bounded before
// anything recursive could see the value.

/** Deepest nesting of lists and objects read; a request needs five. */
const DEPTH_LIMIT = 32

/** A body that is not JSON, or too deep. Line and column count from 1. */
export class BrokenJson extends Error {
  readonly line: number
  readonly column: number

  constructor(text: string, offset: number, what: string) {
    const before = text.slice(0, offset)
    const line = before.split('\n').length
    const column = offset - before.lastIndexOf('\n')
    super(`${what} at line ${line}, column ${column}`)
    this.name = 'BrokenJson'
    this.line = line
    this.column = column
  }
}

export function parseJsonText(text: string): unknown {
  if (text.trim() === '') throw new BrokenJson(text, text.length, 'the body is empty; send one JSON object')
  refuseDepth(text)
  try {
    return JSON.parse(text)
  } catch {
    const offset = firstFault(text)
    throw new BrokenJson(text, offset, offset >= text.length ? 'unexpected end of the text' : unexpected(text, offset))
  }
}

const unexpected = (text: string, offset: number): string =>
  `unexpected ${JSON.stringify(String.fromCodePoint(text.codePointAt(offset) ?? 0))}`

function refuseDepth(text: string): void {
  let depth = 0
  for (let at = 0; at < text.length; at += 1) {
    const mark = text[at]
    if (mark === '"') at = lastOfString(text, at)
    else if (mark === '{' || mark === '[') depth += 1
    else if (mark === '}' || mark === ']') depth -= 1
    if (depth > DEPTH_LIMIT) throw new BrokenJson(text, at, `nested deeper than ${DEPTH_LIMIT} levels`)
  }
}

/** Offset of the closing quote, or the end of the text when there is none. */
function lastOfString(text: string, start: number): number {
  for (let at = start + 1; at < text.length; at += 1) {
    if (text[at] === '\\') at += 1
    else if (text[at] === '"') return at
  }
  return text.length
}

const SPACE = /[ \t\r\n]*/y
const STRING = /"(?:[^"\\\p{Cc}]|[\x7f-\x9f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/uy
const SCALAR = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\w.+-])/y

type Expected = 'value' | 'value or ]' | 'key' | 'key or }' | ': ' | ', or end'

/** Offset of the first character no JSON text could have there. */
function firstFault(text: string): number {
  const open: ('{' | '[')[] = []
  let expected: Expected = 'value'
  let at = 0
  const match = (pattern: RegExp): boolean => {
    pattern.lastIndex = at
    const found = pattern.test(text)
    if (found) at = pattern.lastIndex
    return found
  }
  const close = (): void => {
    open.pop()
    at += 1
    expected = ', or end'
  }
  while (true) {
    match(SPACE)
    const mark = text[at]
    if (mark === undefined) return at
    if (expected === ': ') {
      if (mark !== ':') return at
      at += 1
      expected = 'value'
    } else if (expected === ', or end') {
      const inside = open.at(-1)
      if (mark === ',' && inside !== undefined) {
        at += 1
        expected = inside === '{' ? 'key' : 'value'
      } else if ((mark === '}' && inside === '{') || (mark === ']' && inside === '[')) close()
      else return at
    } else if (expected === 'key' || expected === 'key or }') {
      if (mark === '}' && expected === 'key or }') close()
      else if (match(STRING)) expected = ': '
      else return mark === '"' ? faultInString(text, at) : at
    } else if (mark === '{' || mark === '[') {
      open.push(mark)
      at += 1
      expected = mark === '{' ? 'key or }' : 'value or ]'
    } else if (mark === ']' && expected === 'value or ]') close()
    else if (match(STRING) || match(SCALAR)) expected = ', or end'
    else return mark === '"' ? faultInString(text, at) : at
  }
}

/** Offset of the control character, bad escape or missing end that breaks the string starting at `start`. */
function faultInString(text: string, start: number): number {
  for (let at = start + 1; at < text.length; at += 1) {
    const mark = text[at] ?? ''
    if (mark < ' ') return at
    if (mark === '\\') {
      if (!/^\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.test(text.slice(at, at + 6))) return at
      at += 1
    }
  }
  return text.length
}
