// What level top speed responds to, at one setup: central differences over ±1 % of drive voltage, drag area, mass, nozzle
// ratio and source resistance, each with the rest held. One-sided where a neighbour does not fly level, 0 where neither
// does. Elasticities are relative change per relative change; slopes are in SI.
import type { Ducted } from '../fan/duct-flow.js'
import { solveLevel } from '../operating-point/level.js'
import { emptyOperatingPoint, type OperatingPoint } from '../operating-point/operating-point.js'
import type { PowerTrain } from '../operating-point/power-train.js'

/** A setup at level top speed, with the drag law and the train that were solved. */
export interface LevelFlight {
  readonly duct: Ducted
  readonly density: number
  /** ½·ρ·CdA in N·s²/m², and induced drag times V² in N·m²/s². */
  readonly parasite: number
  readonly induced: number
  readonly train: PowerTrain
  readonly leastSpeed: number
  readonly top: OperatingPoint
}

export interface TopSpeedResponse {
  /** d ln V / d ln of pack power, drag area and mass. */
  readonly power: number
  readonly dragArea: number
  readonly mass: number
  /** dV/dP, m/s per W, and dV/dVe as more power raises the efflux, m/s per m/s. */
  readonly perWatt: number
  readonly perEfflux: number
  /** dV/dσ, m/s per unit of nozzle ratio; dV/dR of pack and leads, m/s per Ω. */
  readonly perNozzleRatio: number
  readonly perOhm: number
}

const STEP = 0.01

/** Changes of one neighbour: factors on voltage, drag area, mass, nozzle ratio and resistance. */
interface Change {
  readonly voltage?: number
  readonly dragArea?: number
  readonly mass?: number
  readonly nozzle?: number
  readonly resistance?: number
}

/** Top speed of the flight with something changed; null when it does not fly level. */
export function topSpeedWith(flight: LevelFlight, change: Change): OperatingPoint | null {
  const { voltage = 1, dragArea = 1, mass = 1, nozzle = 1, resistance = 1 } = change
  const { train, duct } = flight
  const point = emptyOperatingPoint()
  const outcome = solveLevel(
    nozzle === 1 ? duct : { ...duct, nozzleRatio: duct.nozzleRatio * nozzle },
    flight.density,
    flight.parasite * dragArea,
    flight.induced * mass * mass,
    { ...train, openVoltage: train.openVoltage * voltage, sourceResistance: train.sourceResistance * resistance },
    flight.top.speed,
    flight.leastSpeed,
    point,
  )
  return outcome === 'ok' ? point : null
}

/** All responses of one flight. */
export function topSpeedResponse(flight: LevelFlight): TopSpeedResponse {
  const [up, down] = [1 + STEP, 1 - STEP]
  const { top, duct, train } = flight
  const difference = (name: keyof Change): { high: OperatingPoint; low: OperatingPoint; width: number } => {
    const high = topSpeedWith(flight, { [name]: up })
    const low = topSpeedWith(flight, { [name]: down })
    const sides = Number(high !== null) + Number(low !== null)
    return { high: high ?? top, low: low ?? top, width: sides * STEP }
  }
  const slope = (name: keyof Change): number => {
    const { high, low, width } = difference(name)
    return width === 0 ? 0 : (high.speed - low.speed) / width
  }
  const { high, low } = difference('voltage')
  const power = high.busVoltage * high.busCurrent - low.busVoltage * low.busCurrent
  const efflux = (high.axialSpeed - low.axialSpeed) / duct.nozzleRatio
  const perWatt = power === 0 ? 0 : (high.speed - low.speed) / power
  return {
    power: (perWatt * top.busVoltage * top.busCurrent) / top.speed,
    dragArea: slope('dragArea') / top.speed,
    mass: slope('mass') / top.speed,
    perWatt,
    perEfflux: efflux === 0 ? 0 : (high.speed - low.speed) / efflux,
    perNozzleRatio: slope('nozzle') / duct.nozzleRatio,
    perOhm: slope('resistance') / train.sourceResistance,
  }
}
