// A ducted fan as the models see it: annulus, pressure-rise characteristic, efficiency island and limits.
// The characteristic is the linear Euler-work form of Dixon, Fluid Mechanics and Thermodynamics of Turbomachinery
// (cited from memory). Valid for one rotor without inlet swirl at low Mach number.

/** One fan. Lengths m, mass kg, speeds m/s; coefficients are dimensionless. */
export interface Fan {
  readonly id: string
  /** Rotor tip diameter, m. */
  readonly tipDiameter: number
  /** Hub diameter at the rotor, m. */
  readonly hubDiameter: number
  /** Pressure-rise coefficient at zero flow. */
  readonly psi0: number
  /** Fall of the pressure-rise coefficient per unit of flow coefficient. */
  readonly psi1: number
  /** Peak stage efficiency. */
  readonly etaPeak: number
  /** Flow coefficient at peak efficiency. */
  readonly phiPeak: number
  /** Curvature of the efficiency island. */
  readonly kappa: number
  /** Highest tip speed the rotor is rated for, m/s. */
  readonly tipSpeedLimit: number
  /** Largest motor can that fits behind the hub, m. */
  readonly motorCanLimit: number
  /** Shaft bore of the rotor adapter, m. */
  readonly shaftBore: number
  /** Mass with shroud and adapter, without motor, kg. */
  readonly mass: number
}
