// A lithium-polymer pack as the models see it: cells in series behind a resistance, a charge, limits, size and heat.

/** One pack. SI units: A·s, Ω, A, m, kg, J/K, K. */
export interface Pack {
  readonly id: string
  /** Cells in series. */
  readonly cells: number
  /** Rated charge, A·s. */
  readonly capacity: number
  /** Resistance of one cell at 25 °C, Ω. */
  readonly cellResistance: number
  /** Resistance of leads and connector, Ω. */
  readonly leadResistance: number
  /** Believable continuous current, A. */
  readonly continuousCurrent: number
  /** Believable current for passes of up to 15 s, A; also held by the connector. */
  readonly currentLimit: number
  readonly connector: string
  readonly length: number
  readonly width: number
  readonly height: number
  readonly heatCapacity: number
  /** Highest pack temperature, K. */
  readonly temperatureLimit: number
  readonly mass: number
}
