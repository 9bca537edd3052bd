// Where the packs must sit for the centre of gravity to be right, and the ballast it takes when their window is too
// short. Moments are taken about the wanted centre of gravity, so ballast changes the mass but not the balance point. And
// how far the packs may be moved from there.
import type { Airframe } from './airframe.js'

/** Balance of one set of parts. Stations m aft of the nose, masses kg. */
export interface Balance {
  /** Station of the packs' centre. */
  packStation: number
  ballast: number
}

/** How far the centre of gravity may lie from where it is wanted, m. Assumed: no airframe states its own. */
export const BALANCE_TOLERANCE = 0.005

type Stations = Pick<
  Airframe,
  | 'centreOfGravity'
  | 'emptyStation'
  | 'fanStation'
  | 'escStation'
  | 'packStationMin'
  | 'packStationMax'
  | 'noseBallastStation'
  | 'tailBallastStation'
>

/**
 * Balances an airframe with its parts into `balance`.
 * @param emptyMass mass at the empty station, kg
 * @param propulsionMass fan and motor, at the fan station, kg
 * @param escMass speed controller (and receiver supply), at its station, kg
 * @param packMass all packs, kg
 */
export function solveBalance(
  airframe: Stations,
  emptyMass: number,
  propulsionMass: number,
  escMass: number,
  packMass: number,
  balance: Balance,
): void {
  const cg = airframe.centreOfGravity
  const moment =
    emptyMass * (airframe.emptyStation - cg) +
    propulsionMass * (airframe.fanStation - cg) +
    escMass * (airframe.escStation - cg)
  const wanted = cg - moment / packMass
  const station = Math.min(airframe.packStationMax, Math.max(airframe.packStationMin, wanted))
  const left = moment + packMass * (station - cg)
  balance.packStation = station
  if (wanted === station) balance.ballast = 0
  // Tail-heavy: ballast in the nose; nose-heavy: in the tail.
  else
    balance.ballast = left > 0 ? left / (cg - airframe.noseBallastStation) : -left / (airframe.tailBallastStation - cg)
}

/**
 * Stations of the packs' centre between which the centre of gravity stays within its tolerance, inside the packs' room;
 * null when the airframe does not take the ballast that balances it.
 * @param mass of the whole aircraft, kg
 * @param packMass all packs, kg
 */
export function packWindow(
  airframe: Pick<Airframe, 'packStationMin' | 'packStationMax' | 'ballastLimit'>,
  { packStation, ballast }: Readonly<Balance>,
  mass: number,
  packMass: number,
): readonly [from: number, to: number] | null {
  if (ballast > airframe.ballastLimit) return null
  const reach = (BALANCE_TOLERANCE * mass) / packMass
  return [
    Math.max(airframe.packStationMin, packStation - reach),
    Math.min(airframe.packStationMax, packStation + reach),
  ]
}
