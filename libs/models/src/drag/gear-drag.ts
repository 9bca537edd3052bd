// Drag area of an undercarriage from the frontal areas of its wheels and struts. A fixed one costs as much as a whole
// clean airframe, so even the little that open doors leave in the stream counts.
// Source: Sadraey 2009: wheel 0.30 on diameter × width, round strut 1.2 on diameter × length, 10 % for what joins them.
// NACA Rep. 485 found fittings and interference to be 44 % of the drag of real undercarriages on average, so the 10 %
// belong to a tidy one. Left out: wheels in the wake of one another.

export const WHEEL_DRAG = 0.3
/** Round strut, from memory the value of a cylinder below its drag crisis, which struts of a model are. */
export const STRUT_DRAG = 1.2
const JOINTS = 1.1

/**
 * Drag area, m².
 * @param wheels frontal area of the wheels, diameter × width, m²
 * @param struts frontal area of round struts, m²
 * @param exposed share in the stream, 0 to 1
 * @throws RangeError outside those ranges
 */
export function gearDragArea(wheels: number, struts: number, exposed: number): number {
  for (const [quantity, value] of Object.entries({ wheels, struts })) {
    if (!(value >= 0 && value < Infinity)) throw new RangeError(`${quantity} must be at least 0 m², got ${value}`)
  }
  if (!(exposed >= 0 && exposed <= 1)) throw new RangeError(`exposed must lie between 0 and 1, got ${exposed}`)
  return JOINTS * (WHEEL_DRAG * wheels + STRUT_DRAG * struts) * exposed
}
