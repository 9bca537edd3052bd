// Plain text from blocks: wrapping, columns and bars for a fixed width. No-break spaces hold a number and its unit
// together while lines are broken and become ordinary spaces at the end.
import { columns, cut } from '@ductwright/contract/inert'
import type { Bar, Block, GridColumn, Pair, RankedRow, Section, Tile } from './letter.js'

const longestLabel = 34

/** Words filled into lines of at most `width` columns; a word longer than a line is broken. */
export function wrap(text: string, width: number, indent = ''): string[] {
  const room = width - columns(indent)
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ').flatMap((whole) => pieces(whole, room))) {
    if (line !== '' && columns(line) + 1 + columns(word) > room) {
      lines.push(line)
      line = word
    } else line = line === '' ? word : `${line} ${word}`
  }
  return [...lines, line].map((filled) => `${indent}${filled}`.trimEnd())
}

function pieces(word: string, room: number): string[] {
  if (columns(word) <= room) return [word]
  const parts: string[] = []
  let part = ''
  for (const character of word) {
    if (columns(part) + columns(character) > room) {
      parts.push(part)
      part = ''
    }
    part += character
  }
  return [...parts, part]
}

export function pad(text: string, width: number, align: GridColumn['align']): string {
  const gap = ' '.repeat(Math.max(0, width - columns(text)))
  return align === 'right' ? gap + text : text + gap
}

function sectionLines(section: Section, width: number): string[] {
  const heading =
    section.heading === '' ? [] : ['', section.heading.toUpperCase(), '-'.repeat(columns(section.heading))]
  return [
    ...heading,
    ...section.blocks.flatMap((block, index) => [...(index > 0 ? [''] : []), ...blockLines(block, width)]),
  ]
}

export function sectionsText(sections: readonly Section[], width: number): string {
  return softened(sections.flatMap((section) => sectionLines(section, width)).join('\n'))
}

/** No-break spaces back to ordinary ones, line ends trimmed. */
export function softened(text: string): string {
  return text.replace(/\u00a0/g, ' ').replace(/ +$/gm, '')
}

export function blockLines(block: Block, width: number): string[] {
  switch (block.kind) {
    case 'lead':
    case 'paragraph':
      return wrap(block.text, width)
    case 'tiles':
      return tileLines(block.tiles)
    case 'pairs':
      return pairLines(block.pairs, width)
    case 'list':
      return block.items.flatMap((item) => hanging('- ', item, width))
    case 'bars':
      return barLines(block.bars, width)
    case 'picture':
      return wrap(`${block.picture.title}. ${block.picture.alt}`, width)
    case 'grid':
      return gridLines(block.columns, block.rows, width)
    case 'ranked':
      return rankedLines(block.columns, block.rows, width)
  }
}

function hanging(mark: string, text: string, width: number): string[] {
  const [first = '', ...rest] = wrap(text, width - columns(mark))
  return [mark + first, ...rest.map((line) => ' '.repeat(columns(mark)) + line)]
}

function tileLines(tiles: readonly Tile[]): string[] {
  const widest = Math.max(...tiles.map((tile) => columns(tile.value)))
  return tiles.map((tile) => `  ${pad(tile.value, widest, 'right')}  ${tile.label}`)
}

function pairLines(pairs: readonly Pair[], width: number): string[] {
  const value = Math.max(0, ...pairs.map((pair) => columns(pair.value)))
  const room = Math.max(longestLabel, width - 1 - value)
  const widest = Math.min(room, Math.max(0, ...pairs.map((pair) => columns(pair.label) + 1)))
  return pairs.flatMap((pair) => {
    const label = wrap(`${pair.label}:`, widest)
    const value = wrap(pair.value, width - widest - 1)
    const lines = Array.from({ length: Math.max(label.length, value.length) }, (_, index) => index)
    return lines.map((index) => `${pad(label[index] ?? '', widest, 'left')} ${value[index] ?? ''}`)
  })
}

function barLines(bars: readonly Bar[], width: number): string[] {
  const shown = Math.max(0, ...bars.map((bar) => columns(bar.shown)))
  const length = 20
  const room = width - shown - length - 2
  const widest = Math.min(room, Math.max(0, ...bars.map((bar) => columns(bar.label))))
  return bars.flatMap((bar) => {
    const filled = Math.round(Math.min(1, Math.max(0, bar.share)) * length)
    const drawn = '#'.repeat(filled) + '.'.repeat(length - filled)
    const label = wrap(bar.label, widest)
    return label.map((line, index) =>
      index === 0 ? `${pad(line, widest, 'left')} ${drawn} ${pad(bar.shown, shown, 'right')}` : `${line}`,
    )
  })
}

/** Columns as wide as their content; those of words give way and wrap when they do not fit, or else the first. */
export function gridLines(heads: readonly GridColumn[], rows: readonly (readonly string[])[], width: number): string[] {
  const widths = fitted(heads, rows, width)
  const table = [heads.map((head) => head.title), ...rows]
  return table.flatMap((row) => gridRow(row, heads, widths))
}

const narrowest = 12

function fitted(heads: readonly GridColumn[], rows: readonly (readonly string[])[], width: number): number[] {
  const natural = heads.map((head, at) => Math.max(columns(head.title), ...rows.map((row) => columns(row[at] ?? ''))))
  const words = heads.map(({ align }) => align === 'left')
  const gives = words.includes(true) ? words : heads.map((_, at) => at === 0)
  const gaps = 2 * (heads.length - 1)
  const fixed = natural.reduce((sum, each, at) => sum + (gives[at] ? 0 : each), gaps)
  const widest = levelled(
    natural.filter((_, at) => gives[at]),
    width - fixed,
  )
  return natural.map((each, at) => (gives[at] ? Math.min(each, Math.max(narrowest, widest)) : each))
}

/** The width no column may pass for all of them to fit into some room: the narrow ones keep theirs. */
function levelled(natural: readonly number[], room: number): number {
  let left = room
  for (const [at, each] of [...natural].sort((a, b) => a - b).entries()) {
    const share = Math.floor(left / (natural.length - at))
    if (each > share) return share
    left -= each
  }
  return Number.POSITIVE_INFINITY
}

function gridRow(row: readonly string[], heads: readonly GridColumn[], widths: readonly number[]): string[] {
  const cells = heads.map((_, at) => wrap(row[at] ?? '', Math.max(1, widths[at] ?? 1)))
  const lines = Math.max(...cells.map(({ length }) => length))
  return Array.from({ length: lines }, (_, line) =>
    heads
      .map((head, at) => pad(cells[at]?.[line] ?? '', widths[at] ?? 0, head.align))
      .join('  ')
      .trimEnd(),
  )
}

const rankedColumn = 11

/** Figures under heads that wrap into two or three lines, the parts below them. */
export function rankedLines(heads: readonly GridColumn[], rows: readonly RankedRow[], width: number): string[] {
  const widths = heads.map((_, at) =>
    at === 0 ? 4 : Math.min(rankedColumn, Math.floor((width - 4) / (heads.length - 1)) - 1),
  )
  const titles = heads.map((head, at) => wrap(head.title, widths[at] ?? rankedColumn))
  const deep = Math.max(...titles.map((lines) => lines.length))
  const head = Array.from({ length: deep }, (_, line) =>
    aligned(
      titles.map((lines) => lines[line - deep + lines.length] ?? ''),
      widths,
    ),
  )
  return [...head, ...rows.flatMap((row) => [aligned(row.cells, widths), ...wrap(row.below, width, '     ')])]
}

function aligned(cells: readonly string[], widths: readonly number[]): string {
  return cells
    .map((cell, at) => pad(cut(cell, widths[at] ?? rankedColumn), widths[at] ?? rankedColumn, 'right'))
    .join(' ')
}
