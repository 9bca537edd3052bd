// Small things in the stream: control-surface gaps, horns and linkages, door edges and well rims. Each in m² of drag area.
// From memory, the works not recalled: gaps 0.0002·cos²Λ on the area of the surfaces they cut; a bluff body 1.0 to 1.2 on
// its frontal area. Door edges count as bluff too (assumed: 1.0, since most of an edge stands in slow air near the skin).

const GAP_DRAG = 0.0002
/** Middle of 1.0 to 1.2. */
export const HORN_DRAG = 1.1
export const DOOR_EDGE_DRAG = 1

/**
 * Unsealed gaps.
 * @param affectedArea area of the surfaces that the gaps cut, m²
 * @param sweep of the hinge line, rad, within a right angle to either side
 * @throws RangeError outside those ranges
 */
export function gapDragArea(affectedArea: number, sweep: number): number {
  requireArea('affectedArea', affectedArea)
  if (!(Math.abs(sweep) < Math.PI / 2)) {
    throw new RangeError(`sweep must lie between −π/2 and π/2 rad, got ${sweep}`)
  }
  return GAP_DRAG * Math.cos(sweep) ** 2 * affectedArea
}

/** Horns and linkages of a frontal area, m². */
export function hornDragArea(frontalArea: number): number {
  requireArea('frontalArea', frontalArea)
  return HORN_DRAG * frontalArea
}

/** Door edges and well rims of a frontal area, m². */
export function doorEdgeDragArea(frontalArea: number): number {
  requireArea('frontalArea', frontalArea)
  return DOOR_EDGE_DRAG * frontalArea
}

function requireArea(quantity: string, value: number): void {
  if (!(value >= 0 && value < Infinity)) throw new RangeError(`${quantity} must be at least 0 m², got ${value}`)
}
