// From a chart specification to the text of an SVG, on the server or the command line. The drawing library compiles code,
// which no page of ours may, so only finished pictures leave this file: no script, no reference to anything outside.
import { parse, View } from 'vega'
import { compile, type TopLevelSpec } from 'vega-lite'
import { escaped } from './markup.js'

/** What the library writes for its own use: empty paths, and attributes that no reader of an image needs. */
const UNSEEN =
  /<path class="(?:background|foreground)"[^>]*\bd=""[^>]*\/>|<path class="background"[^>]*\bd="M0,0h0v0h0Z"[^>]*\/>| (?:class|role|aria-[a-z]+|pointer-events)="[^"]*"/g

/**
 * Draws a chart as an SVG element that fills the width it is given.
 * @param alt the chart in words, numbers included, for those who cannot see it
 */
export async function drawSvg(spec: TopLevelSpec, alt: string): Promise<string> {
  const view = new View(parse(compile(spec).spec), { renderer: 'none' })
  try {
    const svg = await view.toSVG()
    const viewBox = /viewBox="([^"]+)"/.exec(svg)?.[1] ?? ''
    const inside = svg.slice(svg.indexOf('>') + 1).replace(UNSEEN, '')
    return `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${escaped(alt)}" viewBox="${viewBox}">${inside}`
  } finally {
    view.finalize()
  }
}
