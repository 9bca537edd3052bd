// Temperatures through a flight with the limit of each, from the phases of its timeline: the state at the start and at the
// end of every phase, and the peak, which may lie inside one.
import type { HeatCurves, HeatLine } from '@ductwright/contract/curves'
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import { PACK_START_TEMPERATURE } from '@ductwright/models/evaluation/assumed-state'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import type { Store } from '@ductwright/models/flight/full-throttle-hold'
import type { Timeline } from '@ductwright/models/flight/timeline'
import type { Circumstances } from '@ductwright/models/sweep/problem'

const STORE_WORDS: Readonly<Record<Store, string>> = {
  winding: 'motor winding',
  case: 'motor case and magnets',
  board: 'speed controller',
  pack: 'packs',
}

/** Of a line. */
const MOST_POINTS = 60

const FULL_THROTTLE = ['take-off', 'climb', 'pass']

/** Curves of a flight; null when it has no phase. */
export function heatCurves(circumstances: Circumstances, parts: Parts, timeline: Timeline): HeatCurves | null {
  const { phases, time } = timeline
  if (phases.length === 0) return null
  const { motor, esc, source } = parts
  const { airTemperature: air } = circumstances
  const line = (store: Store, start: number, limit: number): HeatLine => ({
    store,
    words: STORE_WORDS[store],
    limit_c: limit - ZERO_CELSIUS,
    peak_c: timeline.peaks[store].temperature - ZERO_CELSIUS,
    rows: envelope([
      { time_s: 0, temperature_c: start - ZERO_CELSIUS },
      ...phases.map((phase) => ({ time_s: phase.start + phase.time, temperature_c: phase[store] - ZERO_CELSIUS })),
    ]),
  })
  return {
    time_s: time,
    ended_by: timeline.endedBy,
    lines: [
      line('winding', air, motor.windingTemperatureLimit),
      line('case', air, motor.magnetTemperatureLimit),
      line('board', air, esc.boardTemperatureLimit),
      line('pack', Math.max(air, PACK_START_TEMPERATURE), source.temperatureLimit),
    ],
    full_throttle: phases
      .filter(({ phase }) => FULL_THROTTLE.includes(phase))
      .map(({ start, time: length }) => ({ from_s: start, to_s: start + length })),
  }
}

/** A long flight of short passes in few points: of each stretch the coolest and the hottest state, and both ends. */
function envelope(rows: HeatLine['rows']): HeatLine['rows'] {
  if (rows.length <= MOST_POINTS) return rows
  const stretches = MOST_POINTS / 2 - 1
  const inner = rows.slice(1, -1)
  const kept = Array.from({ length: stretches }, (_, i) => {
    const from = Math.floor((i * inner.length) / stretches)
    const stretch = inner.slice(from, Math.floor(((i + 1) * inner.length) / stretches))
    const by = (sign: number) => stretch.reduce((a, b) => (sign * b.temperature_c < sign * a.temperature_c ? b : a))
    return [...new Set([by(1), by(-1)])].sort((a, b) => a.time_s - b.time_s)
  })
  return [...rows.slice(0, 1), ...kept.flat(), ...rows.slice(-1)]
}
