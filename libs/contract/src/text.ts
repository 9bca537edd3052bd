// Short texts of the wire: titles and part ids.
import { idCell } from '@ductwright/catalogue/rows/cell'
import { z } from 'zod'

export const TITLE_LENGTH = 120

/** One line for people; also the subject of the mail. */
export const title = z
  .string()
  .trim()
  .min(1)
  .max(TITLE_LENGTH)
  .meta({
    description: `Heading of the answer, one line of up to ${TITLE_LENGTH} characters. Default: made from the request.`,
  })

/** A part as the catalogue names it; whether it exists is judged where the catalogue is known. */
export const partId = idCell().meta({ description: 'Part id as in the catalogue.' })
