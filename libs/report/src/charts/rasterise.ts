// A chart as a picture for readers that show no SVG: twice the resolution, on paper, in the one typeface that comes with the
// package, so that the same chart has the same bytes on every machine.
import { createRequire } from 'node:module'
import { Resvg, type ResvgRenderOptions } from '@resvg/resvg-js'
import { colour } from './theme.js'

/** Pixels of the picture to one of the chart, for fine screens. */
export const PIXEL_RATIO = 2

const require = createRequire(import.meta.url)
const fontFiles = ['DejaVuSansCondensed.ttf', 'DejaVuSansCondensed-Bold.ttf'].map((file) =>
  require.resolve(`dejavu-fonts-ttf/ttf/${file}`),
)
const family = 'DejaVu Sans Condensed'

/** Typeface, size and ground of every picture. */
export const RASTER_OPTIONS = {
  font: { loadSystemFonts: false, fontFiles, defaultFontFamily: family, sansSerifFamily: family },
  fitTo: { mode: 'zoom', value: PIXEL_RATIO },
  background: colour('paper'),
} as const satisfies ResvgRenderOptions

/** The PNG of a chart. */
export function rasterise(svg: string): Uint8Array {
  return new Resvg(svg, RASTER_OPTIONS).render().asPng()
}
