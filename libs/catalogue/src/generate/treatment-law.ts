// What the drag treatments of a jet around a 90 mm fan cost in material, mass and working time. Assumed: every figure, and
// that none of them grows with the airframe.
import { TREATMENTS, type TreatmentKind } from '@ductwright/models/drag/treatments'
import type { treatmentColumns } from '../rows/treatment-row.js'
import type { Row } from './plan.js'
import { RandomStream } from './random.js'
import { toPrice, toStep } from './rounding.js'

export type TreatmentCells = Row<typeof treatmentColumns>

interface Work {
  readonly name: string
  readonly price: number
  readonly mass_g: number
  readonly hours: number
}

const WORKS: Readonly<Record<TreatmentKind, Work>> = {
  'seal-gaps': { name: 'Seal the hinge gaps with film', price: 12, mass_g: 15, hours: 4 },
  'sharpen-trailing-edges': {
    ...{ name: 'Sand the trailing edges sharp and harden them', price: 24, mass_g: 35, hours: 12 },
  },
  'close-wheel-doors': { name: 'Make the wheel doors close flush', price: 48, mass_g: 60, hours: 15 },
  'hide-horns': { name: 'Move horns and linkages inside', price: 35, mass_g: 20, hours: 9 },
  'fair-edges': { name: 'Round off and fair the flat faces', price: 20, mass_g: 45, hours: 8 },
  polish: { name: 'Fill, sand and polish the skin', price: 40, mass_g: 80, hours: 25 },
}

export function treatmentCells(seed: number, currency: string): TreatmentCells[] {
  return TREATMENTS.map((kind) => {
    const random = new RandomStream(seed, `treatment ${kind}`)
    const { name, price, mass_g, hours } = WORKS[kind]
    return {
      id: kind,
      name,
      price: toPrice(random.around(price, 0.1)),
      mass_g: toStep(random.around(mass_g, 0.1), 1),
      hours: toStep(random.around(hours, 0.1), 0.5),
      currency,
    }
  })
}
