// A brushless motor as the models see it: linear voltage-speed and torque-current lines, a no-load line that rises
// with speed, limits, and two heat stores (winding and case).

/** One motor. SI units: rad/s, Ω, A, K, J/K, W/K; angles rad. */
export interface Motor {
  readonly id: string
  /** Speed constant at the reference timing with magnets at 20 °C, rad/s per V; its inverse is the torque constant, N·m/A. */
  readonly speedConstant: number
  /** Timing at which the speed constant holds, rad. */
  readonly timingReference: number
  /** Terminal resistance at 20 °C, Ω. */
  readonly resistance: number
  /** No-load current extrapolated to zero speed, A. */
  readonly noLoadCurrent: number
  /** Rise of the no-load current with shaft speed, A per rad/s. */
  readonly noLoadCurrentSlope: number
  readonly polePairs: number
  readonly canDiameter: number
  readonly canLength: number
  readonly shaftDiameter: number
  readonly cellsMax: number
  /** Highest shaft speed, rad/s. */
  readonly speedLimit: number
  /** Highest current for passes of up to 15 s, A. */
  readonly currentLimit: number
  /** Highest electrical input power for passes of up to 15 s, W. */
  readonly powerLimit: number
  /** Highest current and electrical input power that may last, A and W. */
  readonly continuousCurrent: number
  readonly continuousPower: number
  /** Highest winding temperature, K. */
  readonly windingTemperatureLimit: number
  /** Highest magnet temperature of their grade, K. */
  readonly magnetTemperatureLimit: number
  readonly windingHeatCapacity: number
  readonly caseHeatCapacity: number
  readonly windingToCaseConductance: number
  readonly caseToAirConductance: number
  readonly mass: number
}
