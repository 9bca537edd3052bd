// Charts as PNG: twice the size of the chart, drawn on paper with ink, text included, and the same bytes each time.
import { answerCharts } from '@ductwright/report/charts/answer-charts'
import { PIXEL_RATIO, rasterise } from '@ductwright/report/charts/rasterise'
import { describe, expect, it } from 'vitest'
import { answer } from './fixture.js'
import { type Picture, readPng, sizeOfPng } from './png.js'

const PAPER = [255, 253, 248, 255]

const pixel = ({ pixels, width }: Picture, x: number, y: number) => [
  ...pixels.subarray(4 * (y * width + x), 4 * (y * width + x) + 4),
]

/** Share of pixels darker than mid grey. */
function inkShare({ pixels }: Picture): number {
  let dark = 0
  for (let at = 0; at < pixels.length; at += 4) {
    if ((pixels[at] ?? 255) + (pixels[at + 1] ?? 255) + (pixels[at + 2] ?? 255) < 3 * 128) dark++
  }
  return (4 * dark) / pixels.length
}

describe('a chart as a picture', () => {
  it('is twice as large as the chart', async () => {
    for (const width of [600, 320] as const) {
      for (const { svg } of await answerCharts(answer({ members: 6 }), { width })) {
        const [, , wide = 0, high = 0] = (/viewBox="([^"]+)"/.exec(svg)?.[1] ?? '').split(' ').map(Number)
        expect([wide, ...sizeOfPng(rasterise(svg))]).toEqual([width, PIXEL_RATIO * wide, PIXEL_RATIO * high])
      }
    }
  })

  it('is opaque paper with ink on it', async () => {
    for (const { svg } of await answerCharts(answer({ members: 6 }), { width: 320 })) {
      const picture = readPng(rasterise(svg))
      expect(pixel(picture, picture.width - 1, picture.height - 1)).toEqual(PAPER)
      expect(inkShare(picture)).toBeGreaterThan(0.005)
      expect(inkShare(picture)).toBeLessThan(0.3)
    }
  })

  it('shows its text', async () => {
    const [chart] = await answerCharts(answer({ members: 6 }), { width: 320 })
    const svg = chart?.svg ?? ''
    const [whole, silent] = [svg, svg.replace(/<text[^>]*>[^<]*<\/text>/g, '')].map((one) => readPng(rasterise(one)))
    expect(inkShare(whole as Picture)).toBeGreaterThan(2 * inkShare(silent as Picture))
  })

  it('has the same bytes twice', async () => {
    const [first, second] = [await answerCharts(answer({ members: 6 })), await answerCharts(answer({ members: 6 }))]
    for (const [i, { svg }] of first.entries()) {
      expect(Buffer.from(rasterise(svg)).equals(rasterise(second[i]?.svg ?? ''))).toBe(true)
    }
  })
})
