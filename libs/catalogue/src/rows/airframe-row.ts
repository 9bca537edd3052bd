// An airframe given in full as one JSON object: the columns of airframes.csv, and beside them, where known, the objects
// "structure" and "drag" with the columns of the other two airframe tables. Such an object may leave out maker, price and
// currency, which nothing but a shop list would need.
import type * as z from 'zod'
import { type AirframeFields, airframeFields } from './airframe-fields.js'
import { lacks, listedAirframe, structureMisfit } from './airframe-of.js'
import { dragObject } from './drag-row.js'
import { structureObject } from './structure-row.js'

const given = airframeFields
  .safeExtend({ structure: structureObject.optional(), drag: dragObject.optional() })
  .superRefine(checkWhole)

type Given = AirframeFields & {
  readonly structure?: z.output<typeof structureObject> | undefined
  readonly drag?: z.output<typeof dragObject> | undefined
}

function checkWhole(row: Given, context: z.RefinementCtx): void {
  const refuse = (path: string[], rule: string, message: string) =>
    context.addIssue({ code: 'custom', path, message, params: { rule } })
  const known = { structure: row.structure !== undefined, drag: row.drag !== undefined }
  for (const { column, message } of lacks(row, known)) refuse([column], 'required', message)
  // A structure with a fault of its own has not been read, whatever its type says.
  const misfit = row.structure && context.issues.length === 0 ? structureMisfit(row, row.structure) : null
  if (misfit !== null) refuse(['structure', 'wing_semispan_mm'], 'structure-fit', misfit)
}

export const airframeRow = given.transform((row) => listedAirframe(row, row.structure ?? null, row.drag ?? null))
