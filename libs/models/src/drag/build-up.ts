// The drag area of an airframe without induced drag, built up term by term: CdA = Σ Cf·FF·Q·S_wet + what spoils it.
// In: geometry (m, m²), speed (m/s), air (kg/m³, Pa·s). Out: one drag area a term, m², in a fixed order.
// Friction falls slowly with speed, so the sum belongs to the speed it was built at: from 0.7 to 1.3 of that speed it moves
// by a few per cent. Left out: compressibility (negligible under Mach 0.4), lift-dependent form drag, the jet over the tail.
// Sources: those of the terms, each in its own file.
import { flatFaceArea, trailingEdgeArea } from './base-drag.js'
import type { DragGeometry, FrictionBody, FrictionSurface } from './drag-geometry.js'
import { bodyFormFactor, wingFormFactor } from './form-factor.js'
import { doorEdgeDragArea, gapDragArea, hornDragArea } from './gap-and-horn-drag.js'
import { gearDragArea } from './gear-drag.js'
import { requireDragGeometry } from './geometry-rules.js'
import { mixedFriction } from './skin-friction.js'

/** Terms in the order they are listed. */
export const DRAG_TERMS = [
  'wing-friction',
  'tail-friction',
  'body-friction',
  'trailing-edges',
  'control-gaps',
  'horns',
  'gear',
  'door-edges',
  'flat-faces',
  'cooling',
  'spillage',
] as const
export type DragTermName = (typeof DRAG_TERMS)[number]

export interface DragTerm {
  readonly term: DragTermName
  /** Drag area, m². */
  readonly area: number
}

/** Density kg/m³, viscosity Pa·s. */
export interface FrictionAir {
  readonly density: number
  readonly viscosity: number
}

/**
 * Every term at a speed (m/s, above 0).
 * @throws RangeError naming quantity, rule and value when geometry, speed or air is not believable
 */
export function dragTerms(geometry: DragGeometry, speed: number, air: FrictionAir): readonly DragTerm[] {
  requireDragGeometry(geometry)
  const areas = termAreas(geometry, reynoldsPerMetre(speed, air))
  return DRAG_TERMS.map((term) => ({ term, area: areas[term] }))
}

/** Sum of the terms, m². Throws as above. */
export function builtUpDragArea(geometry: DragGeometry, speed: number, air: FrictionAir): number {
  return dragTerms(geometry, speed, air).reduce((sum, { area }) => sum + area, 0)
}

function termAreas(geometry: DragGeometry, unitReynolds: number): Readonly<Record<DragTermName, number>> {
  const { roughness, trailingEdges, gear } = geometry
  const wing = surfaceFriction(geometry.wing, roughness, unitReynolds)
  const tail = surfaceFriction(geometry.tail, roughness, unitReynolds)
  const body = bodyFriction(geometry.body, roughness, unitReynolds)
  return {
    'wing-friction': wing,
    'tail-friction': tail,
    'body-friction': body,
    'trailing-edges': trailingEdgeArea(wing + tail, trailingEdges.length * trailingEdges.thickness),
    'control-gaps': gapDragArea(geometry.gaps.affectedArea, geometry.gaps.sweep),
    horns: hornDragArea(geometry.horns),
    gear: gearDragArea(gear.wheels, gear.struts, gear.exposed),
    'door-edges': doorEdgeDragArea(geometry.doorEdges),
    'flat-faces': flatFaceArea(body, geometry.flatFaces),
    cooling: geometry.cooling,
    spillage: geometry.spillage,
  }
}

function surfaceFriction(surface: FrictionSurface, roughness: number, unitReynolds: number): number {
  const friction = mixedFriction(unitReynolds * surface.chord, surface.laminarShare, roughness)
  const form = wingFormFactor(surface.thicknessRatio, surface.thicknessPosition)
  return friction * form * surface.interference * surface.wettedArea
}

function bodyFriction(body: FrictionBody, roughness: number, unitReynolds: number): number {
  const friction = mixedFriction(unitReynolds * body.length, body.laminarShare, roughness)
  return friction * bodyFormFactor(body.fineness) * body.interference * body.wettedArea
}

function reynoldsPerMetre(speed: number, air: FrictionAir): number {
  for (const [quantity, value, unit] of [
    ['speed', speed, 'm/s'],
    ['air.density', air.density, 'kg/m³'],
    ['air.viscosity', air.viscosity, 'Pa·s'],
  ] as const) {
    if (!(value > 0 && value < Infinity)) {
      throw new RangeError(`${quantity} must be above 0 ${unit} and finite, got ${value}`)
    }
  }
  return (air.density * speed) / air.viscosity
}
