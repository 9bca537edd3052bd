// Three classes of airframe as the models see them, read from the table of assumed ranges; tail thickness and elevator,
// which the table does not give, are added here.
import type { AirframeStructure, ControlSurface } from '@ductwright/models/structure/airframe-structure'
import fc from 'fast-check'
import { authorityTable } from './authority-table.js'

export const CLASSES = ['foam_sport', 'composite_sport', 'carbon_speed'] as const
export type AirframeClass = (typeof CLASSES)[number]

const table = authorityTable('airframe-classes')

/** Number of a class, as the table gives it. */
export function classNumber(airframe: AirframeClass, quantity: string): number {
  const row = table.rows.find((each) => each.text('quantity') === quantity)
  if (row === undefined) throw new RangeError(`no quantity ${quantity} in the table of classes`)
  return row.number(airframe)
}

/** What comes out, with the tolerance it is held to. */
export const classResults = table.rows
  .filter((row) => row.text('tolerance') !== '')
  .map((row) => ({ quantity: row.text('quantity'), tolerance: row.number('tolerance') }))

export function classAileron(airframe: AirframeClass): ControlSurface {
  const of = (quantity: string) => classNumber(airframe, `aileron_${quantity}`)
  return {
    name: 'aileron',
    span: of('span_m'),
    chord: of('chord_m'),
    inertia: of('inertia_kg_m2'),
    linkageStiffness: of('linkage_nm_per_rad'),
    servoTorque: of('torque_nm'),
  }
}

/** An elevator of half the aileron's span and 0.7 of its chord, with its inertia by chord cubed, on the same linkage. */
function classElevator(aileron: ControlSurface): ControlSurface {
  const inertia = aileron.inertia * 0.5 * 0.7 ** 3
  return { ...aileron, name: 'elevator', span: 0.5 * aileron.span, chord: 0.7 * aileron.chord, inertia }
}

export function classStructure(airframe: AirframeClass): AirframeStructure {
  const of = (quantity: string) => classNumber(airframe, quantity)
  const aileron = classAileron(airframe)
  return {
    wing: {
      semispan: of('wing_semispan_m'),
      chord: of('wing_chord_m'),
      taper: of('wing_taper'),
      thicknessRatio: of('wing_thickness_ratio'),
      torsionalStiffness: of('wing_torsional_stiffness_nm2'),
      massOffset: of('wing_mass_offset'),
      elasticOffset: of('wing_elastic_offset'),
      liftSlope: of('wing_lift_slope'),
    },
    tail: {
      semispan: of('tail_semispan_m'),
      chord: of('tail_chord_m'),
      taper: of('tail_taper'),
      thicknessRatio: 0.09,
      torsionalStiffness: of('tail_torsional_stiffness_nm2'),
      massOffset: of('tail_mass_offset'),
    },
    controls: [aileron, classElevator(aileron)],
  }
}

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

const panels = fc.record({
  semispan: between(0.1, 0.8),
  chord: between(0.06, 0.35),
  taper: between(0.2, 1),
  thicknessRatio: between(0.05, 0.15),
  torsionalStiffness: between(0.3, 200),
  massOffset: between(0.05, 0.4),
})

/** Random structures within and somewhat beyond what the classes span. */
export const structures: fc.Arbitrary<AirframeStructure> = fc.record({
  wing: fc
    .tuple(panels, between(-0.1, 0.3), between(3, 6))
    .map(([panel, elasticOffset, liftSlope]) => ({ ...panel, elasticOffset, liftSlope })),
  tail: panels,
  controls: fc.array(
    fc.record({
      name: fc.constantFrom('aileron' as const, 'elevator' as const),
      span: between(0.05, 0.5),
      chord: between(0.01, 0.08),
      inertia: between(1e-6, 5e-5),
      linkageStiffness: between(1, 30),
      servoTorque: between(0.1, 3),
    }),
    { maxLength: 2 },
  ),
})
