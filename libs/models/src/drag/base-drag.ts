// Drag of faces that look aft: the suction behind a blunt base is the weaker the thicker the boundary layer that arrives.
// In: forebody friction drag referred to the base area, CfB. Out: drag coefficient on the base area.
// This is what makes a sharp trailing edge worth the work: halving its thickness more than halves its drag.
// Source: Hoerner 1950, "Base drag and thick trailing edges", DOI 10.2514/8.1750; the two-dimensional constant from memory.
// Left out: a base that a jet blows past, and one that is ventilated.

/**
 * Least forebody friction on the base area that is told apart. Assumed: below it the coefficient stays, since the curves
 * would grow without bound where nothing was measured. It also keeps a smoother surface from costing more at the base
 * than it saves: the drag of the base, C·CfB^−n, then has a slope under 1 against the friction in front of it.
 */
export const LEAST_FOREBODY_FRICTION = 0.1

/** Behind a body: 0.029/√CfB. */
export function bodyBaseDrag(forebodyFriction: number): number {
  return 0.029 / Math.sqrt(atLeast(forebodyFriction))
}

/** Behind a wing: 0.135/CfB^(1/3). */
export function edgeBaseDrag(forebodyFriction: number): number {
  return 0.135 / Math.cbrt(atLeast(forebodyFriction))
}

/** What a blunt trailing edge adds to a section. */
export interface TrailingEdgeDrag {
  /** Section friction on the base, CfB. */
  readonly forebodyFriction: number
  /** On the base. */
  readonly coefficient: number
  /** On the chord. */
  readonly increment: number
}

/**
 * A section of a chord (m) with a trailing edge of a thickness (m) and friction drag on the chord, both sides.
 * @throws RangeError when one of them is not above 0
 */
export function trailingEdgeDrag(chord: number, thickness: number, sectionDrag: number): TrailingEdgeDrag {
  requirePositive('chord', chord)
  requirePositive('thickness', thickness)
  requirePositive('sectionDrag', sectionDrag)
  const forebodyFriction = (sectionDrag * chord) / thickness
  const coefficient = edgeBaseDrag(forebodyFriction)
  return { forebodyFriction, coefficient, increment: (coefficient * thickness) / chord }
}

/**
 * Drag area of blunt trailing edges, m².
 * @param frictionArea friction drag area of the surfaces in front, m², above 0
 * @param baseArea length along the span times thickness, m²; 0: sharp
 */
export function trailingEdgeArea(frictionArea: number, baseArea: number): number {
  return baseArea === 0 ? 0 : edgeBaseDrag(frictionArea / baseArea) * baseArea
}

/** Drag area of faces of a body that look aft, m²; arguments as above. */
export function flatFaceArea(frictionArea: number, baseArea: number): number {
  return baseArea === 0 ? 0 : bodyBaseDrag(frictionArea / baseArea) * baseArea
}

// Infinite on a base so small that the ratio overflows: no drag.
function atLeast(forebodyFriction: number): number {
  if (!(forebodyFriction > 0)) throw new RangeError(`forebodyFriction must be above 0, got ${forebodyFriction}`)
  return Math.max(LEAST_FOREBODY_FRICTION, forebodyFriction)
}

function requirePositive(quantity: string, value: number): void {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${quantity} must be above 0 and finite, got ${value}`)
}
