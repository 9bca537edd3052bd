// Schema of the curves of a setup; the interface in curves.ts says what each field means. Checked against it when compiled.
import { z } from 'zod'
import type { SetupCurves } from './curves.js'
import type { Same } from './same-shape.js'

const throttlePoint = {
  speed_km_h: z.number(),
  thrust_n: z.number(),
  efflux_km_h: z.number(),
  pack_current_a: z.number(),
  pack_power_w: z.number(),
}

const point = z.strictObject(throttlePoint)

const marginLine = z.strictObject({
  criterion: z.string(),
  words: z.string(),
  binds: z.boolean(),
  at_fastest: z.number(),
  rows: z.array(z.strictObject({ speed_km_h: z.number(), margin: z.number() })),
})

const heatLine = z.strictObject({
  store: z.enum(['winding', 'case', 'board', 'pack']),
  words: z.string(),
  limit_c: z.number(),
  peak_c: z.number(),
  rows: z.array(z.strictObject({ time_s: z.number(), temperature_c: z.number() })),
})

const heat = z.strictObject({
  lines: z.array(heatLine),
  full_throttle: z.array(z.strictObject({ from_s: z.number(), to_s: z.number() })),
  time_s: z.number(),
  ended_by: z.enum(['time', 'charge', 'underpowered']),
})

export const setupCurves = z
  .strictObject({
    charge: z.number(),
    rows: z.array(z.strictObject({ ...throttlePoint, thrust_full_n: z.number(), drag_n: z.number().nullable() })),
    standing: point,
    top: point,
    ceiling: point,
    standing_full: point,
    top_full: point,
    ceiling_full: point,
    stall_km_h: z.number(),
    fastest_km_h: z.number(),
    allowed_km_h: z.number().nullable(),
    target_km_h: z.number().nullable(),
    margins: z.strictObject({ lines: z.array(marginLine), wanted: z.number() }),
    heat: heat.nullable(),
  })
  .meta({ description: 'Thrust, drag, efflux and margins against speed, temperatures through the flight.' })

/** Does not compile when schema and interface differ. */
export const curvesAgree: Same<SetupCurves, z.output<typeof setupCurves>> = true
