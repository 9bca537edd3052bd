// What a drag geometry must satisfy before anything is built up from it: every quantity with its name, unit and range.
// The ranges are wide enough for any model jet, and narrow enough to catch a millimetre taken for a metre.
import type { DragGeometry, FrictionBody, FrictionSurface } from './drag-geometry.js'

type Rule = readonly [quantity: string, value: number, least: number, most: number, unit: string]

/**
 * @throws RangeError naming the first quantity that breaks its rule
 */
export function requireDragGeometry(geometry: DragGeometry): void {
  for (const [quantity, value, least, most, unit] of rules(geometry)) {
    if (!(value >= least && value <= most)) {
      throw new RangeError(`${quantity} must lie between ${least} and ${most}${unit}, got ${value}`)
    }
  }
}

function rules(geometry: DragGeometry): readonly Rule[] {
  const { trailingEdges, gaps, gear } = geometry
  return [
    ...surfaceRules('wing', geometry.wing),
    ...surfaceRules('tail', geometry.tail),
    ...bodyRules(geometry.body),
    ['roughness', geometry.roughness, 1, 3, ''],
    ['trailingEdges.length', trailingEdges.length, 0, 20, ' m'],
    ['trailingEdges.thickness', trailingEdges.thickness, 0, 0.02, ' m'],
    ['gaps.affectedArea', gaps.affectedArea, 0, 10, ' m²'],
    ['gaps.sweep', gaps.sweep, -1.4, 1.4, ' rad'],
    ['horns', geometry.horns, 0, 0.1, ' m²'],
    ['gear.wheels', gear.wheels, 0, 1, ' m²'],
    ['gear.struts', gear.struts, 0, 1, ' m²'],
    ['gear.exposed', gear.exposed, 0, 1, ''],
    ['doorEdges', geometry.doorEdges, 0, 0.1, ' m²'],
    ['flatFaces', geometry.flatFaces, 0, 1, ' m²'],
    ['cooling', geometry.cooling, 0, 0.1, ' m²'],
    ['spillage', geometry.spillage, 0, 0.1, ' m²'],
  ]
}

function surfaceRules(name: string, surface: FrictionSurface): readonly Rule[] {
  return [
    [`${name}.wettedArea`, surface.wettedArea, 1e-4, 20, ' m²'],
    [`${name}.chord`, surface.chord, 0.01, 3, ' m'],
    [`${name}.thicknessRatio`, surface.thicknessRatio, 0, 0.3, ''],
    [`${name}.thicknessPosition`, surface.thicknessPosition, 0.1, 0.7, ''],
    [`${name}.interference`, surface.interference, 1, 1.5, ''],
    [`${name}.laminarShare`, surface.laminarShare, 0, 1, ''],
  ]
}

function bodyRules(body: FrictionBody): readonly Rule[] {
  return [
    ['body.wettedArea', body.wettedArea, 1e-4, 20, ' m²'],
    ['body.length', body.length, 0.05, 10, ' m'],
    ['body.fineness', body.fineness, 2, 40, ''],
    ['body.interference', body.interference, 1, 1.5, ''],
    ['body.laminarShare', body.laminarShare, 0, 1, ''],
  ]
}
