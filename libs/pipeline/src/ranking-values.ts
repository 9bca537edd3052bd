// What an owner's ranking expression gives for each setup of the front: its figures by the names the contract lists.
import { compileExpression } from '@ductwright/contract/expression-tree'
import type { RankingFigures } from '@ductwright/contract/ranking-quantities'
import { normalisedExpression } from '@ductwright/contract/read-expression'
import type { Objectives, SetupFigures } from '@ductwright/contract/result'

interface Valued {
  readonly raw: Objectives
  readonly replacementCost: number
  readonly figures: SetupFigures
}

/**
 * The value of an expression for a setup.
 * @throws RangeError for a text that no request was read with
 */
export function valueBy(text: string): (setup: Valued) => number {
  const value = compileExpression(normalisedExpression(text))
  return (setup) => value(rankingFigures(setup))
}

export function rankingFigures({ raw, replacementCost, figures }: Valued): RankingFigures {
  const { standing, top, temperatures } = figures
  return {
    ...raw,
    replacement_cost: replacementCost,
    duty: top.duty,
    mass_kg: figures.mass_kg,
    stall_km_h: figures.stall_km_h,
    landing_km_h: figures.landing_km_h,
    thrust_to_weight: figures.thrust_to_weight,
    headroom: figures.headroom,
    standing_thrust_n: standing.thrust_n,
    standing_current_a: standing.pack_current_a,
    standing_power_w: standing.pack_power_w,
    top_current_a: top.pack_current_a,
    top_power_w: top.pack_power_w,
    mean_current_a: figures.mean_current_a,
    charge_used_mah: figures.charge_used_mah,
    efflux_ceiling_km_h: figures.efflux_ceiling_km_h,
    shaft_rpm: top.shaft_rpm,
    tip_mach: top.tip_mach,
    winding_c: temperatures.winding_c,
    esc_c: temperatures.esc_c,
    pack_c: temperatures.pack_c,
  }
}
