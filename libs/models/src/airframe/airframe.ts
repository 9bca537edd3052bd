// An airframe as the models see it: drag, lift, duct, structure, room for parts and where their mass may sit.
// Stations are measured aft from the nose.
import type { DragGeometry } from '../drag/drag-geometry.js'
import type { AirframeStructure } from '../structure/airframe-structure.js'

/** One airframe. SI units; speeds are equivalent air speeds at sea level, m/s. */
export interface Airframe {
  readonly id: string
  /** Drag area without induced drag, m². */
  readonly dragArea: number
  /** Where the drag area comes from: solved from a measured speed, stated, or built up from the geometry. */
  readonly dragBasis: 'measured' | 'stated' | 'built-up'
  /** What that drag area is built up from; null when only the area is known. */
  readonly dragGeometry: DragGeometry | null
  readonly span: number
  readonly wingArea: number
  /** Oswald span efficiency factor. */
  readonly oswald: number
  readonly liftCoefficientMax: number
  /** Highest lift coefficient with flaps down; the same as without when it has none. */
  readonly liftCoefficientMaxFlaps: number
  /** Mass without fan, motor, speed controller and packs, with servos, receiver and gear, kg. */
  readonly emptyMass: number
  readonly takeOffMassLimit: number
  /** Fan sizes the duct takes, rotor tip diameter, m. */
  readonly fanDiameterMin: number
  readonly fanDiameterMax: number
  /** Nozzle exit diameters the fuselage takes, m. */
  readonly exitDiameterMin: number
  readonly exitDiameterMax: number
  /** Loss of duct behind the inlet as a share of the fan-face dynamic head. */
  readonly ductLoss: number
  /** Loss of the inlet at equal inlet and fan area; scales with (fan area / inlet area)². */
  readonly inletLoss: number
  readonly inletArea: number
  /** Extra loss of the inlet lip standing still, fading with flight speed. */
  readonly lipLoss: number
  /** Share of the flight dynamic pressure recovered at the fan face. */
  readonly ramRecovery: number
  readonly bayLength: number
  readonly bayWidth: number
  readonly bayHeight: number
  /** Highest equivalent air speed stated by maker or owner, m/s; null when none is stated (plain data carries no Infinity). */
  readonly designSpeed: number | null
  /** What flutter, divergence and control forces are worked out from; null when only a design speed is stated. */
  readonly structure: AirframeStructure | null
  /** Ultimate wing root bending moment, N·m. */
  readonly rootMomentUltimate: number
  /** Load the fan mount carries again and again, N. */
  readonly mountLoad: number
  /** Rolls on wheels, or is launched (no ground roll to limit). */
  readonly launch: 'wheels' | 'bungee'
  readonly centreOfGravity: number
  readonly emptyStation: number
  readonly fanStation: number
  readonly escStation: number
  readonly packStationMin: number
  readonly packStationMax: number
  readonly noseBallastStation: number
  readonly tailBallastStation: number
  readonly ballastLimit: number
}
