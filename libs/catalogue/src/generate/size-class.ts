// What belongs to a fan size: the motor can behind its hub, the shaft, and the cell counts it is flown on with the tip
// speed each gives standing. Common practice, no source; tip speeds follow from coherent standing points of the models.

export interface SizeClass {
  /** Rotor tip diameter, mm. */
  readonly size: number
  /** Largest usual motor can, mm. */
  readonly can: number
  readonly shaft_mm: number
  /** Cell count and the tip speed (m/s) its winds aim at. */
  readonly winds: readonly { readonly cells: number; readonly tipSpeed: number }[]
}

/** From this size up some fans take a can 1 mm over the usual one. */
export const ROOMY_SIZE = 80

const wind = (cells: number, tipSpeed: number) => ({ cells, tipSpeed })

export const SIZE_CLASSES: readonly SizeClass[] = [
  { size: 50, can: 20, shaft_mm: 3.17, winds: [wind(3, 124), wind(4, 141)] },
  { size: 55, can: 22, shaft_mm: 3.17, winds: [wind(3, 126), wind(4, 146)] },
  { size: 64, can: 25, shaft_mm: 4, winds: [wind(3, 118), wind(4, 140), wind(6, 163)] },
  { size: 70, can: 28, shaft_mm: 4, winds: [wind(4, 132), wind(6, 158)] },
  { size: 80, can: 33, shaft_mm: 5, winds: [wind(6, 150), wind(8, 168)] },
  { size: 90, can: 37, shaft_mm: 5, winds: [wind(6, 147), wind(8, 165), wind(10, 182), wind(12, 198)] },
  { size: 105, can: 44, shaft_mm: 6, winds: [wind(8, 160), wind(10, 176), wind(12, 193), wind(14, 207)] },
  { size: 120, can: 50, shaft_mm: 8, winds: [wind(10, 162), wind(12, 173), wind(14, 188)] },
]

export function sizeClass(size: number): SizeClass {
  const found = SIZE_CLASSES.find((each) => each.size === size)
  if (found === undefined)
    throw new RangeError(`fan size ${size} mm must be one of ${SIZE_CLASSES.map((each) => each.size).join(', ')}`)
  return found
}
