// What is set before the first run: timing, throttle cap in per cent and as current, cut-off of the speed controller,
// nozzle exit, where the packs go, and the throttle that is just enough or still allowed.
import { figure } from '@ductwright/contract/figures'
import type { Member, Pick, Refinement, SetupFigures } from '@ductwright/contract/result'
import type { Pair, Section } from '../letter.js'
import { settings } from '../setup-words.js'

/** Voltage under load at which a cell is cut off, V. Common practice, no source. */
const CUT_OFF = 3.2

export function settingsSection({ setup, figures }: Member, pick: Pick): Section {
  const draws = { label: 'That draws', value: `${standing(figures)}, packs full and warm` }
  const pairs = [
    ...settings(setup, figures).flatMap((pair) => (pair.label === 'Throttle cap' ? [pair, draws] : [pair])),
    { label: 'Balance', value: balance(figures.ballast_kg) },
    { label: 'Controller cut-off', value: cutOff(pick, figures.cells) },
    ...refined('Just enough for the target', pick.for_target),
    ...refined('Highest throttle allowed', pick.highest),
  ]
  return { heading: 'Set', blocks: [{ kind: 'pairs', pairs }] }
}

function standing(figures: SetupFigures): string {
  return `${figure('current', figures.standing.pack_current_a)} standing`
}

function cutOff({ study: { flight } }: Pick, cells: number): string {
  const all = `${figure('voltage', CUT_OFF * cells)} for ${figure('count', cells)} in series`
  const set = `${figure('voltage', CUT_OFF)} a cell, ${all}, soft (common practice)`
  const least = flight?.least_pack_voltage_v ?? null
  if (least === null) return set
  const lowest = figure('voltage', least)
  if (least < CUT_OFF * cells) return `${set}; this flight would go down to ${lowest} under load: land earlier`
  return `${set}; set an alarm just below ${lowest}, the lowest of this flight under load`
}

function balance(ballast: number): string {
  const packs = 'start with the packs there, then shift them until it balances at the point its plan gives'
  return ballast > 0 ? `${packs}; they are at the end of their room, so the ballast is needed too` : packs
}

function refined(label: string, refinement: Refinement | null): Pair[] {
  if (refinement === null) return []
  const { duty, throttle_cap_a: current } = refinement
  return [{ label, value: `${figure('exactPercent', duty * 100)}, ${figure('current', current)} standing` }]
}
