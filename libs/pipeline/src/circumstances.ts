// From the sections of a request to the circumstances the models work in: air over the field, effective mass limit,
// limits with their "none" values.
import type { SweepRequest } from '@ductwright/contract/request'
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { fieldAir } from '@ductwright/models/atmosphere/standard-atmosphere'
import type { Circumstances } from '@ductwright/models/sweep/problem'

/** More than the rounding of a sum of prices, far less than a cent: what costs exactly the budget is within it. */
const MONEY_NOISE = 1e-6

type Sections = Pick<SweepRequest, 'field' | 'mass' | 'profile' | 'run' | 'limits'> & {
  readonly charge: number
  readonly budget: number | null
  readonly basis: Circumstances['speedBasis']
  readonly speedFloor: number
}

export function circumstancesOf(sections: Sections, airframe: Airframe): Circumstances {
  const { field, mass, limits } = sections
  const air = fieldAir(field.elevation, field.temperature)
  return {
    airframe,
    density: air.density,
    soundSpeed: air.soundSpeed,
    airTemperature: air.temperature,
    pressure: air.pressure,
    viscosity: air.viscosity,
    mass: { limit: Math.min(airframe.takeOffMassLimit, mass.limit ?? Number.POSITIVE_INFINITY), fixed: mass.fixed },
    runway: field.runway,
    rollingFriction: field.rollingFriction,
    profile: {
      ...sections.profile,
      turnRadius: sections.profile.turnRadius ?? Number.POSITIVE_INFINITY,
      pullUpRadius: sections.profile.pullUpRadius ?? Number.POSITIVE_INFINITY,
    },
    run: sections.run,
    limits: {
      budget: (sections.budget ?? Number.POSITIVE_INFINITY) + MONEY_NOISE,
      margin: limits.margin,
      headroom: limits.headroom,
      stallSpeed: limits.stallSpeed,
      thrustToWeight: limits.thrustToWeight,
      flightTime: limits.flightTime ?? 0,
      speedFloor: sections.speedFloor,
    },
    charge: sections.charge,
    speedBasis: sections.basis,
  }
}
