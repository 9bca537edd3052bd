// Speed at which bending and torsion of a wing or tail panel couple into flutter, from geometry, torsional stiffness and
// air: (Vf/a)² = G_E / {DN·A³/[(t/c)³(A + 2)] · (λ + 1)/2 · p/p0}, DN = 24·ε·κ·p0/π, A = exposed semispan² over area.
// In: one panel, effective shear modulus, pressure, speed of sound. Out: true air speed.
// Valid for unswept, subsonic panels whose mass lies behind the quarter chord. Left out: control surfaces, sweep, the
// fuselage, play. A form in circulation with 1.337 instead of 2.674 speeds the answer up by √2: it is not used here.
// Source: Martin, NACA TN 4197, eq. 18; the torsion tube after Bredt.
import { HEAT_RATIO_AIR } from '../constants.js'
import type { LiftingPanel } from './airframe-structure.js'
import { requireBetween, requirePositive } from './refusals.js'

/** The air flutter depends on: Pa, m/s. */
export interface FlutterAir {
  readonly pressure: number
  readonly soundSpeed: number
}

/** A panel without its stiffness. */
export type PanelShape = Omit<LiftingPanel, 'torsionalStiffness'>

/** A solid plate of one thickness, m; offset of its centre of mass behind the quarter chord as a share of the chord. */
export interface SolidPlate {
  readonly semispan: number
  readonly rootChord: number
  readonly tipChord: number
  readonly thickness: number
  readonly massOffset: number
}

/** Furthest a centre of mass can lie behind the quarter chord, in chords: the trailing edge. */
const TRAILING_EDGE = 0.75
/**
 * c·t³ over the torsion constant that the formula has built in, between a plate (3) and a double wedge (12). Follows from
 * DN when the formula is written as ρV² = π·GJ·(A + 2)/(4·ε·l²·c²·A).
 */
const SECTION_SHAPE = 6

/**
 * Flutter speed of a panel, m/s true air speed.
 * @param shearModulus effective, Pa
 * @throws RangeError when shape, modulus or air lie outside what the formula holds for
 */
export function flutterSpeed(shape: PanelShape, shearModulus: number, air: FlutterAir): number {
  requireShape(shape)
  requirePositive('shear modulus', shearModulus, 'Pa')
  requirePositive('air pressure', air.pressure, 'Pa')
  requirePositive('speed of sound', air.soundSpeed, 'm/s')
  const aspect = shape.semispan / shape.chord
  const slenderness = aspect ** 3 / (shape.thicknessRatio ** 3 * (aspect + 2))
  const pressureScale = (24 * shape.massOffset * HEAT_RATIO_AIR * air.pressure) / Math.PI
  return air.soundSpeed * Math.sqrt(shearModulus / (pressureScale * slenderness * ((shape.taper + 1) / 2)))
}

/** Flutter speed of a built-up panel from its torsional stiffness, m/s true air speed; the thickness cancels. */
export function panelFlutterSpeed(panel: LiftingPanel, air: FlutterAir): number {
  return flutterSpeed(panel, panelShearModulus(panel), air)
}

/** Flutter speed of a solid plate, m/s true air speed; the thickness ratio is taken at the root. */
export function plateFlutterSpeed(plate: SolidPlate, shearModulus: number, air: FlutterAir): number {
  const { semispan, rootChord, tipChord, thickness, massOffset } = plate
  requirePositive('root chord', rootChord, 'm')
  const chord = (rootChord + tipChord) / 2
  const shape = { semispan, chord, taper: tipChord / rootChord, thicknessRatio: thickness / rootChord, massOffset }
  return flutterSpeed(shape, shearModulus, air)
}

/**
 * Shear modulus of a solid panel that twists as the built-up one does, Pa: 6·GJ/(c⁴·(t/c)³).
 * @throws RangeError when stiffness, chord or thickness are not above 0
 */
export function panelShearModulus(panel: LiftingPanel): number {
  requirePositive('torsional stiffness', panel.torsionalStiffness, 'N·m²')
  requirePositive('mean chord', panel.chord, 'm')
  requireBetween('thickness ratio', panel.thicknessRatio, 0, 1)
  return (SECTION_SHAPE * panel.torsionalStiffness) / (panel.chord ** 4 * panel.thicknessRatio ** 3)
}

/**
 * Torsion constant of a closed thin skin after Bredt, m⁴: 4·A²·t/s. Times the shear modulus of the skin it is the
 * stiffness of an unbroken box; cut-outs, wells and a joiner leave about 0.35 of it (assumed).
 * @param enclosedArea within the middle line of the skin, m²
 * @param perimeter of that line, m
 */
export function bredtTorsionConstant(enclosedArea: number, skinThickness: number, perimeter: number): number {
  requirePositive('enclosed area', enclosedArea, 'm²')
  requirePositive('skin thickness', skinThickness, 'm')
  requirePositive('perimeter', perimeter, 'm')
  return (4 * enclosedArea ** 2 * skinThickness) / perimeter
}

function requireShape(shape: PanelShape): void {
  requirePositive('exposed semispan', shape.semispan, 'm')
  requirePositive('mean chord', shape.chord, 'm')
  requireBetween('taper', shape.taper, 0, 1)
  requireBetween('thickness ratio', shape.thicknessRatio, 0, 1)
  // At or ahead of the quarter chord the formula promises that nothing ever flutters, which nobody has shown for a model.
  requireBetween('offset of the centre of mass', shape.massOffset, 0, TRAILING_EDGE)
}
