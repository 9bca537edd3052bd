// The charts of an answer as pictures for a mail: PNG at twice their width, each under a content id drawn from
// its bytes, so that the same answer gives the same mail.
import { createHash } from 'node:crypto'
import type { Result } from '@ductwright/contract/result'
import { answerCharts } from './charts/answer-charts.js'
import { rasterise } from './charts/rasterise.js'
import type { Picture } from './letter.js'

/** A chart in both forms, with the id its picture goes by in a message. */
export interface DrawnPicture extends Picture {
  readonly svg: string
  readonly png: Uint8Array
  readonly contentId: string
}

/** Laid out for that many px. */
export async function drawnPictures(result: Result, width: 320 | 600): Promise<DrawnPicture[]> {
  const charts = await answerCharts(result, { width })
  return charts.map(({ id, title, alt, svg }) => {
    const png = rasterise(svg)
    const mark = createHash('sha256').update(png).digest('hex').slice(0, 16)
    return { id, title, alt, svg, png, contentId: `${id}.${mark}@ductwright` }
  })
}
