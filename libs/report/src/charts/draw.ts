// From a chart specification to the text of an SVG, on the server or the command line. The drawing library compiles code,
// which no page of ours may, so only finished pictures leave this file: no script, no style, no id, no reference to
// anything, so that many of them stand in one page under the strictest policy.
import { parse, View } from 'vega'
import { compile, type TopLevelSpec } from 'vega-lite'
import { escaped } from './markup.js'

/** What the library writes for its own use: empty paths, and attributes that no reader of an image needs. */
const UNSEEN =
  /<path class="(?:background|foreground)"[^>]*\bd=""[^>]*\/>|<path class="background"[^>]*\bd="M0,0h0v0h0Z"[^>]*\/>| (?:class|role|aria-[a-z]+|pointer-events)="[^"]*"/g

interface Drawing {
  readonly width: number
  readonly height: number
  /** What stands inside the root element. */
  readonly inside: string
}

/**
 * Draws a chart as an SVG element that fills the width it is given.
 * @param alt the chart in words, numbers included, for those who cannot see it
 */
export async function drawSvg(spec: TopLevelSpec, alt: string): Promise<string> {
  return drawGrid([spec], { columns: 1, gap: 0 }, alt)
}

/** Several charts of one size in one picture, row by row. */
export async function drawGrid(
  specs: readonly TopLevelSpec[],
  { columns, gap }: { readonly columns: number; readonly gap: number },
  alt: string,
): Promise<string> {
  const drawings: Drawing[] = []
  for (const spec of specs) drawings.push(await drawing(spec))
  const { width = 0, height = 0 } = drawings[0] ?? {}
  const across = Math.min(columns, drawings.length)
  const rows = Math.ceil(drawings.length / columns)
  const extent = (cells: number, size: number) => cells * size + (cells - 1) * gap
  const placed = drawings.map(({ inside }, i) => {
    const [x, y] = [(i % columns) * (width + gap), Math.floor(i / columns) * (height + gap)]
    return x === 0 && y === 0 ? inside : `<g transform="translate(${x},${y})">${inside}</g>`
  })
  const viewBox = `0 0 ${extent(across, width)} ${extent(rows, height)}`
  return `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${escaped(alt)}" viewBox="${viewBox}">${placed.join('')}</svg>`
}

async function drawing(spec: TopLevelSpec): Promise<Drawing> {
  const view = new View(parse(compile(spec).spec), { renderer: 'none' })
  try {
    const svg = await view.toSVG()
    const [, , width = 0, height = 0] = (/viewBox="([^"]+)"/.exec(svg)?.[1] ?? '').split(' ').map(Number)
    const inside = svg.slice(svg.indexOf('>') + 1, svg.lastIndexOf('</svg>')).replace(UNSEEN, '')
    return { width, height, inside }
  } finally {
    view.finalize()
  }
}
