// Figures of what an invented airframe's wing, tail and control surfaces are made of: the three anchors around a 90 mm fan
// (foam sport, composite sport, carbon speed), scaled so that another size flutters at about the same speed. Lengths go
// with x = fan size / 90 mm, torsional stiffness with x⁴, linkage stiffness and servo torque with x³, inertia with x⁵.
// Assumed: every figure; stiffness, centres of mass and linkages are estimates that nobody has measured.
import type { structureTableColumns } from '../rows/structure-row.js'
import { type AirframeSpec, type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toDigits } from './rounding.js'

export type StructureCells = Row<typeof structureTableColumns>

/** mm, shares of the chord in %, N·m². */
interface PanelAnchor {
  readonly semispan: number
  readonly chord: number
  readonly taper: number
  readonly thickness: number
  readonly stiffness: number
  readonly massOffset: number
}

/** mm, g·cm², N·m/rad, N·m. */
interface ControlAnchor {
  readonly span: number
  readonly chord: number
  readonly inertia: number
  readonly linkage: number
  readonly servo: number
}

interface Anchor {
  readonly wing: PanelAnchor & { readonly elasticOffset: number; readonly liftSlope: number }
  readonly tail: PanelAnchor
  readonly aileron: ControlAnchor
  readonly elevator: ControlAnchor
}

const ANCHORS: Readonly<Record<AirframeSpec['material'], Anchor>> = {
  foam: {
    wing: {
      ...{ semispan: 480, chord: 235, taper: 0.53, thickness: 11, stiffness: 16, massOffset: 15 },
      ...{ elasticOffset: 12, liftSlope: 4.3 },
    },
    tail: { semispan: 180, chord: 120, taper: 0.8, thickness: 9, stiffness: 1.1, massOffset: 22 },
    aileron: { span: 320, chord: 50, inertia: 120, linkage: 2.5, servo: 0.3 },
    elevator: { span: 320, chord: 36, inertia: 32, linkage: 2.2, servo: 0.2 },
  },
  composite: {
    wing: {
      ...{ semispan: 485, chord: 227, taper: 0.53, thickness: 10, stiffness: 45, massOffset: 18 },
      ...{ elasticOffset: 12, liftSlope: 4.3 },
    },
    tail: { semispan: 190, chord: 120, taper: 0.8, thickness: 9, stiffness: 5, massOffset: 22 },
    aileron: { span: 300, chord: 42, inertia: 120, linkage: 8, servo: 0.6 },
    elevator: { span: 340, chord: 34, inertia: 35, linkage: 7, servo: 0.6 },
  },
  carbon: {
    wing: {
      ...{ semispan: 420, chord: 171, taper: 0.48, thickness: 8.5, stiffness: 35, massOffset: 20 },
      ...{ elasticOffset: 12, liftSlope: 4.5 },
    },
    tail: { semispan: 160, chord: 100, taper: 0.8, thickness: 8, stiffness: 6, massOffset: 22 },
    aileron: { span: 260, chord: 34, inertia: 46, linkage: 12, servo: 0.55 },
    elevator: { span: 280, chord: 28, inertia: 14, linkage: 9, servo: 0.45 },
  },
}

/** Torques servos are sold with, N·m; a builder takes the one nearest to what the law asks. */
const SERVO_CLASSES = [
  ...[0.04, 0.05, 0.06, 0.08, 0.1, 0.12, 0.15, 0.18, 0.2, 0.25, 0.3, 0.36, 0.45, 0.55, 0.6],
  ...[0.7, 0.8, 1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3],
]

export function structureCells(spec: AirframeSpec, seed: number): StructureCells {
  const random = new RandomStream(seed, `structure ${spec.maker} ${spec.name} ${spec.size}`)
  const { wing, tail, aileron, elevator } = ANCHORS[spec.material]
  const x = spec.size / 90
  const near = (value: number) => toDigits(random.around(value, spec.scatter), 3)
  const panel = (anchor: PanelAnchor) => ({
    semispan: Math.round(anchor.semispan * x),
    chord: Math.round(anchor.chord * x),
    stiffness: near(anchor.stiffness * x ** 4),
    massOffset: near(anchor.massOffset),
  })
  const control = (anchor: ControlAnchor) => ({
    span: Math.round(anchor.span * x),
    chord: toDigits(anchor.chord * x, 3),
    inertia: near(anchor.inertia * x ** 5),
    linkage: near(anchor.linkage * x ** 3),
    servo: servoClass(anchor.servo * x ** 3),
  })
  const [wings, tails, ailerons, elevators] = [panel(wing), panel(tail), control(aileron), control(elevator)]
  return {
    airframe_id: slug('airframe', spec.name),
    wing_semispan_mm: wings.semispan,
    wing_chord_mm: wings.chord,
    wing_taper: wing.taper,
    wing_thickness_percent: wing.thickness,
    wing_torsional_stiffness_nm2: wings.stiffness,
    wing_mass_offset_percent: wings.massOffset,
    wing_elastic_offset_percent: wing.elasticOffset,
    wing_lift_slope_per_rad: wing.liftSlope,
    tail_semispan_mm: tails.semispan,
    tail_chord_mm: tails.chord,
    tail_taper: tail.taper,
    tail_thickness_percent: tail.thickness,
    tail_torsional_stiffness_nm2: tails.stiffness,
    tail_mass_offset_percent: tails.massOffset,
    aileron_span_mm: ailerons.span,
    aileron_chord_mm: ailerons.chord,
    aileron_inertia_g_cm2: ailerons.inertia,
    aileron_linkage_nm_per_rad: ailerons.linkage,
    aileron_servo_torque_nm: ailerons.servo,
    elevator_span_mm: elevators.span,
    elevator_chord_mm: elevators.chord,
    elevator_inertia_g_cm2: elevators.inertia,
    elevator_linkage_nm_per_rad: elevators.linkage,
    elevator_servo_torque_nm: elevators.servo,
  }
}

/** The class whose ratio to a torque, N·m, is nearest to 1. */
function servoClass(torque: number): number {
  const ratio = (each: number) => Math.max(each / torque, torque / each)
  return SERVO_CLASSES.reduce((best, each) => (ratio(each) < ratio(best) ? each : best))
}
