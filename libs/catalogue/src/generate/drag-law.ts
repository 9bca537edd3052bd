// Figures of what an invented airframe's drag is made of: the three anchors around a 90 mm fan as they come from the
// mould, scaled to other sizes (lengths with x = fan size / 90 mm, areas with x²). Finish moves them towards the same
// airframe with every treatment done. A jet without wheels has no gear and no wheel doors.
// Assumed: every figure; at 80 m/s the anchors add up to about 89, 53 and 32 cm² before and 56, 46 and 28 cm² after.
import type { DragGeometry, FrictionSurface } from '@ductwright/models/drag/drag-geometry'
import { TREATMENTS, treatedGeometry } from '@ductwright/models/drag/treatments'
import type { dragTableColumns } from '../rows/drag-row.js'
import { type AirframeSpec, type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toDigits, toStep } from './rounding.js'

export type DragCells = Row<typeof dragTableColumns>

const DEGREE = Math.PI / 180
const CM2 = 1e-4

const surface = (
  [wettedArea, chord]: readonly [number, number],
  [thicknessRatio, thicknessPosition]: readonly [number, number],
  interference: number,
  laminarShare: number,
): FrictionSurface => ({ wettedArea, chord, thicknessRatio, thicknessPosition, interference, laminarShare })

const ANCHORS: Readonly<Record<AirframeSpec['material'], DragGeometry>> = {
  foam: {
    wing: surface([0.46, 0.235], [0.11, 0.3], 1.1, 0.05),
    tail: surface([0.15, 0.12], [0.09, 0.3], 1.08, 0.05),
    body: { wettedArea: 0.34, length: 1.1, fineness: 8.46, interference: 1.1, laminarShare: 0.02 },
    roughness: 1.18,
    trailingEdges: { length: 1.55, thickness: 0.003 },
    gaps: { affectedArea: 0.34, sweep: 9 * DEGREE },
    horns: 2.4 * CM2,
    gear: { wheels: 42 * CM2, struts: 16 * CM2, exposed: 0.24 },
    doorEdges: 3.8 * CM2,
    flatFaces: 80 * CM2,
    cooling: 2.5 * CM2,
    spillage: 3 * CM2,
  },
  composite: {
    wing: surface([0.449, 0.227], [0.1, 0.35], 1.04, 0.22),
    tail: surface([0.145, 0.12], [0.09, 0.35], 1.04, 0.22),
    body: { wettedArea: 0.347, length: 1.2, fineness: 9.2, interference: 1.04, laminarShare: 0.08 },
    roughness: 1.06,
    trailingEdges: { length: 1.6, thickness: 0.001 },
    gaps: { affectedArea: 0.33, sweep: 11 * DEGREE },
    horns: 1.2 * CM2,
    gear: { wheels: 42 * CM2, struts: 18 * CM2, exposed: 0.07 },
    doorEdges: 2 * CM2,
    flatFaces: 15 * CM2,
    cooling: 1.5 * CM2,
    spillage: 2 * CM2,
  },
  carbon: {
    wing: surface([0.29, 0.171], [0.085, 0.4], 1.02, 0.33),
    tail: surface([0.09, 0.1], [0.08, 0.38], 1.02, 0.33),
    body: { wettedArea: 0.225, length: 0.95, fineness: 9.2, interference: 1.02, laminarShare: 0.1 },
    roughness: 1.06,
    trailingEdges: { length: 1.3, thickness: 0.0008 },
    gaps: { affectedArea: 0.2, sweep: 14 * DEGREE },
    horns: 0.8 * CM2,
    gear: { wheels: 30 * CM2, struts: 12 * CM2, exposed: 0.06 },
    doorEdges: 1.2 * CM2,
    flatFaces: 10 * CM2,
    cooling: 0.8 * CM2,
    spillage: 1.2 * CM2,
  },
}

export function dragCells(spec: AirframeSpec, seed: number): DragCells {
  const random = new RandomStream(seed, `drag ${spec.maker} ${spec.name} ${spec.size}`)
  const raw = ANCHORS[spec.material]
  const done = treatedGeometry(raw, TREATMENTS)
  const x = spec.size / 90
  const part = (of: (geometry: DragGeometry) => number) => of(raw) + (of(done) - of(raw)) * spec.finish
  const wheels = spec.launch === 'wheels' ? 1 : 0
  const near = (value: number) => random.around(value, spec.scatter)
  const cm2 = (of: (geometry: DragGeometry) => number, factor = 1) =>
    toDigits((near(part(of)) * factor * x * x) / CM2, 3)
  const dm2 = (area: number) => toDigits(area * x * x * 100, 3)
  return {
    airframe_id: slug('airframe', spec.name),
    ...surfaceCells('wing', { ...raw.wing, laminarShare: part(({ wing }) => wing.laminarShare) }, x),
    ...surfaceCells('tail', { ...raw.tail, laminarShare: part(({ tail }) => tail.laminarShare) }, x),
    body_wetted_area_dm2: dm2(raw.body.wettedArea),
    body_length_mm: Math.round(1000 * raw.body.length * x),
    body_fineness: raw.body.fineness,
    body_interference: raw.body.interference,
    body_laminar_percent: toStep(100 * part(({ body }) => body.laminarShare), 0.5),
    roughness: toDigits(
      part(({ roughness }) => roughness),
      3,
    ),
    trailing_edge_length_mm: toStep(1000 * raw.trailingEdges.length * x, 10),
    trailing_edge_thickness_mm: toDigits(1000 * near(part((each) => each.trailingEdges.thickness)) * x, 2),
    gap_affected_area_dm2: toDigits(100 * part(({ gaps }) => gaps.affectedArea) * x * x, 3),
    gap_sweep_deg: toStep(raw.gaps.sweep / DEGREE, 1),
    horn_area_cm2: cm2(({ horns }) => horns),
    gear_wheel_area_cm2: cm2(({ gear }) => gear.wheels, wheels),
    gear_strut_area_cm2: cm2(({ gear }) => gear.struts, wheels),
    gear_exposed_percent: wheels * toStep(100 * part(({ gear }) => gear.exposed), 1),
    door_edge_area_cm2: cm2(({ doorEdges }) => doorEdges, wheels),
    flat_face_area_cm2: cm2(({ flatFaces }) => flatFaces),
    cooling_drag_area_cm2: cm2(({ cooling }) => cooling),
    spillage_drag_area_cm2: cm2(({ spillage }) => spillage),
  }
}

function surfaceCells<const Name extends 'wing' | 'tail'>(name: Name, each: FrictionSurface, x: number) {
  const cells = {
    [`${name}_wetted_area_dm2`]: toDigits(each.wettedArea * x * x * 100, 3),
    [`${name}_chord_mm`]: Math.round(1000 * each.chord * x),
    [`${name}_thickness_percent`]: toDigits(100 * each.thicknessRatio, 3),
    [`${name}_thickness_position_percent`]: toDigits(100 * each.thicknessPosition, 3),
    [`${name}_interference`]: each.interference,
    [`${name}_laminar_percent`]: toStep(100 * each.laminarShare, 0.5),
  }
  return cells as {
    readonly [Column in keyof DragCells as Column extends `${Name}_${string}` ? Column : never]: number
  }
}
