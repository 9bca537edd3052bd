// Drag geometries for tests: three invented jets from rough to clean, and any that the rules allow.

import { standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import type { DragGeometry, FrictionSurface } from '@ductwright/models/drag/drag-geometry'
import fc from 'fast-check'

export const SEA_LEVEL = standardAtmosphere(0)

export interface ExampleJet {
  readonly name: string
  readonly geometry: DragGeometry
  /** Speed it is made for, m/s. */
  readonly speed: number
  /** Believable drag areas before and after a full clean-up, m²; an assumption of this design. */
  readonly dirty: number
  readonly clean: number
}

function surface(
  wettedArea: number,
  chord: number,
  thickness: readonly [number, number],
  rest: readonly [number, number],
) {
  const [thicknessRatio, thicknessPosition] = thickness
  const [interference, laminarShare] = rest
  return { wettedArea, chord, thicknessRatio, thicknessPosition, interference, laminarShare }
}

const FOAM: DragGeometry = {
  wing: surface(0.46, 0.235, [0.11, 0.3], [1.1, 0.05]),
  tail: surface(0.15, 0.12, [0.09, 0.3], [1.08, 0.05]),
  body: { wettedArea: 0.34, length: 1.1, fineness: 8.46, interference: 1.1, laminarShare: 0.02 },
  roughness: 1.18,
  trailingEdges: { length: 1.55, thickness: 0.003 },
  gaps: { affectedArea: 0.34, sweep: 0.15 },
  horns: 0.00024,
  gear: { wheels: 0.0042, struts: 0.0016, exposed: 0.24 },
  doorEdges: 0.00038,
  flatFaces: 0.008,
  cooling: 0.00025,
  spillage: 0.0003,
}

const COMPOSITE: DragGeometry = {
  wing: surface(0.449, 0.227, [0.1, 0.35], [1.04, 0.22]),
  tail: surface(0.145, 0.12, [0.09, 0.35], [1.04, 0.22]),
  body: { wettedArea: 0.347, length: 1.2, fineness: 9.2, interference: 1.04, laminarShare: 0.08 },
  roughness: 1.06,
  trailingEdges: { length: 1.6, thickness: 0.001 },
  gaps: { affectedArea: 0.33, sweep: 0.2 },
  horns: 0.00012,
  gear: { wheels: 0.0042, struts: 0.0018, exposed: 0.07 },
  doorEdges: 0.0002,
  flatFaces: 0.0015,
  cooling: 0.00015,
  spillage: 0.0002,
}

const CARBON: DragGeometry = {
  wing: surface(0.29, 0.171, [0.085, 0.4], [1.02, 0.33]),
  tail: surface(0.09, 0.1, [0.08, 0.38], [1.02, 0.33]),
  body: { wettedArea: 0.225, length: 0.95, fineness: 9.2, interference: 1.02, laminarShare: 0.1 },
  roughness: 1.06,
  trailingEdges: { length: 1.3, thickness: 0.0008 },
  gaps: { affectedArea: 0.2, sweep: 0.25 },
  horns: 0.00008,
  gear: { wheels: 0.003, struts: 0.0012, exposed: 0.06 },
  doorEdges: 0.00012,
  flatFaces: 0.001,
  cooling: 0.00008,
  spillage: 0.00012,
}

export const FOAM_JET: ExampleJet = { name: 'foam', geometry: FOAM, speed: 75, dirty: 0.009, clean: 0.006 }
export const EXAMPLE_JETS: readonly ExampleJet[] = [
  FOAM_JET,
  { name: 'composite', geometry: COMPOSITE, speed: 90, dirty: 0.0052, clean: 0.0045 },
  { name: 'carbon', geometry: CARBON, speed: 115, dirty: 0.003, clean: 0.0026 },
]

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

const anySurface: fc.Arbitrary<FrictionSurface> = fc.record({
  wettedArea: number(1e-4, 20),
  chord: number(0.01, 3),
  thicknessRatio: number(0, 0.3),
  thicknessPosition: number(0.1, 0.7),
  interference: number(1, 1.5),
  laminarShare: number(0, 1),
})

/** Any geometry that the rules allow, believable or not. */
export const anyGeometry: fc.Arbitrary<DragGeometry> = fc.record({
  wing: anySurface,
  tail: anySurface,
  body: fc.record({
    wettedArea: number(1e-4, 20),
    length: number(0.05, 10),
    fineness: number(2, 40),
    interference: number(1, 1.5),
    laminarShare: number(0, 1),
  }),
  roughness: number(1, 3),
  trailingEdges: fc.record({ length: number(0, 20), thickness: number(0, 0.02) }),
  gaps: fc.record({ affectedArea: number(0, 10), sweep: number(-1.4, 1.4) }),
  horns: number(0, 0.1),
  gear: fc.record({ wheels: number(0, 1), struts: number(0, 1), exposed: number(0, 1) }),
  doorEdges: number(0, 0.1),
  flatFaces: number(0, 1),
  cooling: number(0, 0.1),
  spillage: number(0, 0.1),
})

/** Any speed of a model jet and a little beyond, m/s. */
export const anySpeed = number(1, 200)
