// The figures of a setup that an owner's own ranking expression may name. Plain numbers in the unit of the name; a share
// where there is none.

export const RANKING_QUANTITIES = {
  speed_km_h: 'speed that is compared',
  flight_time_s: 'flight time',
  cost: "what is still to be paid, in the catalogue's currency",
  margin: 'distance from the design load as a share of it: 0.25 is 25 % below',
  replacement_cost: 'cost if nothing were owned',
  duty: 'throttle setting, 0 to 1',
  mass_kg: 'take-off mass',
  stall_km_h: 'stall speed',
  landing_km_h: 'landing speed',
  thrust_to_weight: 'standing thrust over weight',
  headroom: 'least share of a current, rotation or temperature rating left',
  standing_thrust_n: 'thrust standing, full pack',
  standing_current_a: 'pack current standing, full pack',
  standing_power_w: 'pack power standing, full pack',
  top_current_a: 'pack current at top speed',
  top_power_w: 'pack power at top speed',
  mean_current_a: 'mean pack current of the flight',
  charge_used_mah: 'charge used in the wanted flight',
  efflux_ceiling_km_h: 'speed at which the efflux is no faster than the aircraft',
  shaft_rpm: 'speed of rotation at top speed',
  tip_mach: 'Mach number of the blade tips at top speed',
  winding_c: 'highest motor winding temperature of the flight',
  esc_c: 'highest speed controller temperature of the flight',
  pack_c: 'highest pack temperature of the flight',
} as const satisfies Record<string, string>

export type RankingQuantity = keyof typeof RANKING_QUANTITIES

/** A value of each. */
export type RankingFigures = Readonly<Record<RankingQuantity, number>>

export const RANKING_QUANTITY_NAMES = Object.keys(RANKING_QUANTITIES) as readonly RankingQuantity[]

export function isRankingQuantity(name: string): name is RankingQuantity {
  return Object.hasOwn(RANKING_QUANTITIES, name)
}
