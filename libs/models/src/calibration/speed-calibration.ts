// Drag area from power and level speed in one line, CdA = 2·η·P/(ρ·V³), with the relative standard uncertainty
// u² = u_η² + u_P² + (3·u_V)² + u_ρ² of a product (JCGM 100:2008, 5.1.6). A quick check on the full solve of drag-area.ts:
// η is the whole way from battery to thrust, and induced drag counts in. Efficiency and drag area cannot be told apart from
// speed and power alone: shaft speed, thrust or a glide separates them.

/** A value with its relative standard uncertainty. */
export interface Uncertain {
  readonly value: number
  readonly uncertainty: number
}

/** Power W, efficiency from where the power is taken to thrust times speed, speed m/s, density kg/m³. */
export interface SpeedMeasurement {
  readonly power: Uncertain
  readonly efficiency: Uncertain
  readonly speed: Uncertain
  readonly density: Uncertain
}

/**
 * Drag area, m², with its relative standard uncertainty.
 * @throws RangeError for a value not above 0, an efficiency above 1, or an uncertainty outside 0 to 0.5
 */
export function dragAreaFromPower(measured: SpeedMeasurement): Uncertain {
  const { power, efficiency, speed, density } = measured
  for (const [quantity, each] of Object.entries(measured)) requireUncertain(quantity, each)
  if (efficiency.value > 1) throw new RangeError(`efficiency must be 1 at most, got ${efficiency.value}`)
  return {
    value: (2 * efficiency.value * power.value) / (density.value * speed.value ** 3),
    uncertainty: Math.hypot(efficiency.uncertainty, power.uncertainty, 3 * speed.uncertainty, density.uncertainty),
  }
}

function requireUncertain(quantity: string, { value, uncertainty }: Uncertain): void {
  if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${quantity} must be above 0, got ${value}`)
  if (!(uncertainty >= 0 && uncertainty <= 0.5)) {
    throw new RangeError(`relative uncertainty of ${quantity} must lie between 0 and 0.5, got ${uncertainty}`)
  }
}
