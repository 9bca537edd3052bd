// Reads a page of charts the hard way: every tag must be closed, every ampersand must be an entity, every attribute quoted.
// Hands out elements with their text, and texts of a picture with the place their groups move them to.

export interface Element {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
  readonly children: Element[]
  text: string
  /** Sum of the shifts of the groups around it and its own; turned things are not placed. */
  readonly x: number
  readonly y: number
  readonly turned: boolean
}

const EMPTY = new Set(['meta', 'br', 'hr'])
const TAG = /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/y

/** @throws SyntaxError where the markup is not well formed */
export function elementsOf(markup: string): Element[] {
  const body = markup.replace(/^<!doctype html>\n/, '')
  const all: Element[] = []
  const open: Element[] = []
  let at = 0
  while (at < body.length) {
    if (body[at] !== '<') at = readText(body, at, open)
    else {
      TAG.lastIndex = at
      const tag = TAG.exec(body)
      if (tag === null) throw new SyntaxError(`no tag: ${body.slice(at, at + 80)}`)
      const [whole, closing, name = '', list = '', empty] = tag
      at += whole.length
      if (closing) {
        if (open.pop()?.name !== name) throw new SyntaxError(`</${name}> closes something else`)
        continue
      }
      const element = elementOf(name, list, open.at(-1))
      all.push(element)
      open.at(-1)?.children.push(element)
      if (!empty && !EMPTY.has(name)) open.push(element)
    }
  }
  if (open.length > 0) throw new SyntaxError(`never closed: ${open.map(({ name }) => name).join()}`)
  return all
}

function readText(body: string, at: number, open: readonly Element[]): number {
  const end = body.indexOf('<', at)
  const text = body.slice(at, end < 0 ? body.length : end)
  const parent = open.at(-1)
  if (parent?.name !== 'style' && /&(?!(?:amp|lt|gt|quot|#\d+);)/.test(text)) {
    throw new SyntaxError(`bare ampersand: ${text.slice(0, 80)}`)
  }
  if (parent !== undefined) parent.text += text
  return at + text.length
}

function elementOf(name: string, list: string, parent: Element | undefined): Element {
  const attributes = Object.fromEntries(
    [...list.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, key, value]) => [key, value]),
  )
  const move = attributes['transform'] ?? ''
  const [, x = '0', y = '0'] = /^translate\(([-\d.]+),\s*([-\d.]+)\)/.exec(move) ?? []
  return {
    name,
    attributes,
    children: [],
    text: '',
    x: (parent?.x ?? 0) + Number(x),
    y: (parent?.y ?? 0) + Number(y),
    turned: (parent?.turned ?? false) || move.includes('rotate'),
  }
}

/** Everything inside an element. */
export function within({ children }: Element): Element[] {
  return children.flatMap((child) => [child, ...within(child)])
}
