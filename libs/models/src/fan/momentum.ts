// Momentum theory of a ducted fan: thrust, jet power and propulsive efficiency from exit area and efflux speed alone.
// Used to check the fan characteristic and to explain the efflux ceiling. Leishman; McCormick (cited from memory).

/** Static thrust of an exit area Ae (m²) fed with jet power (W) in air of a density (kg/m³), N. */
export function staticThrust(density: number, exitArea: number, jetPower: number): number {
  return Math.cbrt(4 * density * exitArea * jetPower * jetPower)
}

/** Efflux speed of a static thrust, m/s. */
export function staticEfflux(density: number, exitArea: number, thrust: number): number {
  return Math.sqrt(thrust / (density * exitArea))
}

/** Share of the jet power that moves the aircraft: 2 / (1 + Ve/V); 0 standing still. */
export function froudeEfficiency(speed: number, efflux: number): number {
  return speed <= 0 ? 0 : 2 / (1 + efflux / speed)
}

/**
 * Efflux speed in flight at constant jet power: ½·ρ·Ae·Ve·(Ve² − V²) = P. m/s
 * Newton from above on a convex cubic, so it cannot leave the bracket.
 * @throws RangeError when it does not converge
 */
export function effluxAtJetPower(density: number, exitArea: number, jetPower: number, speed: number): number {
  const target = (2 * jetPower) / (density * exitArea)
  let efflux = speed + Math.cbrt(target)
  for (let i = 0; i < 60; i++) {
    const step = (efflux * (efflux * efflux - speed * speed) - target) / (3 * efflux * efflux - speed * speed)
    efflux -= step
    if (Math.abs(step) <= 1e-13 * efflux) return efflux
  }
  throw new RangeError(`efflux speed does not converge for jet power ${jetPower} W at ${speed} m/s`)
}
