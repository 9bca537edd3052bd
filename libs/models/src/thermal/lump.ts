// One heat store cooled by the air: C·dT/dt = Q − G·(T − T∞), solved exactly.

/** Rise above the air after a time with constant heat, K. Q W, G W/K, C J/K, t s. */
export function lumpRise(heat: number, conductance: number, capacity: number, time: number): number {
  return (heat / conductance) * -Math.expm1((-time * conductance) / capacity)
}

/** Current above which a resistance with feedback has no steady temperature, A: √(G/(R·α)). */
export function runawayCurrent(conductance: number, resistance: number, coefficient: number): number {
  return Math.sqrt(conductance / (resistance * coefficient))
}
