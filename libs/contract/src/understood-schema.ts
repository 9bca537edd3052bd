// Schemas of what was understood, as a reply echoes it: SI units, every default filled in. Each is checked against its
// interface when this file is compiled, in both directions, so neither can gain or lose a field alone.
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { TREATMENTS } from '@ductwright/models/drag/treatments'
import { z } from 'zod'
import { arrangements, speedBases } from './airframe-section.js'
import type { SetupChoice, SweepRequest } from './request.js'
import type { Same } from './same-shape.js'
import type { SetupRequest } from './setup.js'

export const chosenSetup = z
  .strictObject({
    fan: z.string(),
    motor: z.string(),
    esc: z.string(),
    timing_deg: z.number(),
    pack: z.string(),
    arrangement: z.enum(arrangements),
    nozzle_ratio: z.number(),
    duty: z.number(),
  })
  .meta({ description: 'One buildable setup: part ids and settings.' })

const friction = {
  wettedArea: z.number(),
  interference: z.number(),
  laminarShare: z.number(),
}

const frictionSurface = z.strictObject({
  ...friction,
  chord: z.number(),
  thicknessRatio: z.number(),
  thicknessPosition: z.number(),
})

const dragGeometry = z
  .strictObject({
    wing: frictionSurface,
    tail: frictionSurface,
    body: z.strictObject({ ...friction, length: z.number(), fineness: z.number() }),
    roughness: z.number(),
    trailingEdges: z.strictObject({ length: z.number(), thickness: z.number() }),
    gaps: z.strictObject({ affectedArea: z.number(), sweep: z.number() }),
    horns: z.number(),
    gear: z.strictObject({ wheels: z.number(), struts: z.number(), exposed: z.number() }),
    doorEdges: z.number(),
    flatFaces: z.number(),
    cooling: z.number(),
    spillage: z.number(),
  })
  .meta({ description: 'What the drag area is built up from, in SI units.' })

const panel = {
  semispan: z.number(),
  chord: z.number(),
  taper: z.number(),
  thicknessRatio: z.number(),
  torsionalStiffness: z.number(),
  massOffset: z.number(),
}

const structure = z
  .strictObject({
    wing: z.strictObject({ ...panel, elasticOffset: z.number(), liftSlope: z.number() }),
    tail: z.strictObject(panel),
    controls: z.array(
      z.strictObject({
        name: z.enum(['aileron', 'elevator']),
        span: z.number(),
        chord: z.number(),
        inertia: z.number(),
        linkageStiffness: z.number(),
        servoTorque: z.number(),
      }),
    ),
  })
  .meta({ description: 'What flutter, divergence and control forces are worked out from, in SI units.' })

const airframeSi = z
  .strictObject({
    id: z.string(),
    dragArea: z.number(),
    dragBasis: z.enum(['measured', 'stated', 'built-up']),
    dragGeometry: dragGeometry.nullable(),
    span: z.number(),
    wingArea: z.number(),
    oswald: z.number(),
    liftCoefficientMax: z.number(),
    liftCoefficientMaxFlaps: z.number(),
    emptyMass: z.number(),
    takeOffMassLimit: z.number(),
    fanDiameterMin: z.number(),
    fanDiameterMax: z.number(),
    exitDiameterMin: z.number(),
    exitDiameterMax: z.number(),
    ductLoss: z.number(),
    inletLoss: z.number(),
    inletArea: z.number(),
    lipLoss: z.number(),
    ramRecovery: z.number(),
    bayLength: z.number(),
    bayWidth: z.number(),
    bayHeight: z.number(),
    designSpeed: z.number().nullable(),
    structure: structure.nullable(),
    rootMomentUltimate: z.number(),
    mountLoad: z.number(),
    launch: z.enum(['wheels', 'bungee']),
    centreOfGravity: z.number(),
    emptyStation: z.number(),
    fanStation: z.number(),
    escStation: z.number(),
    packStationMin: z.number(),
    packStationMax: z.number(),
    noseBallastStation: z.number(),
    tailBallastStation: z.number(),
    ballastLimit: z.number(),
  })
  .meta({ description: 'An airframe in SI units; stations in m aft of the nose.' })

const measured = z
  .strictObject({ setup: chosenSetup, speed: z.number(), basis: z.enum(speedBases), speedUncertainty: z.number() })
  .nullable()

const airframe = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('catalogue'), id: z.string(), measured }),
  z.strictObject({ kind: z.literal('given'), airframe: airframeSi, name: z.string(), measured }),
])

const circumstances = {
  title: z.string(),
  airframe,
  treatments: z.array(z.enum(TREATMENTS)),
  mass: z.strictObject({ limit: z.number().nullable(), fixed: z.number().nullable() }),
  field: z.strictObject({
    elevation: z.number(),
    temperature: z.number(),
    runway: z.number(),
    rollingFriction: z.number(),
  }),
  profile: z.strictObject({
    flightTime: z.number(),
    fullThrottleShare: z.number(),
    passTime: z.number(),
    cruiseSpeed: z.number(),
    reserve: z.number(),
    loadFactor: z.number(),
    turnRadius: z.number().nullable(),
    pullUpRadius: z.number().nullable(),
    climbHeight: z.number(),
    approachTime: z.number(),
  }),
  run: z.strictObject({
    length: z.number(),
    entrySpeedShare: z.number(),
    entryHeight: z.number(),
    diveAngle: z.number(),
  }),
  owned: z.array(
    z.strictObject({
      id: z.string(),
      count: z.int(),
      cellResistance: z.number().nullable(),
      cycles: z.int().nullable(),
    }),
  ),
  limits: z.strictObject({
    margin: z.number(),
    headroom: z.number(),
    stallSpeed: z.number(),
    thrustToWeight: z.number(),
    flightTime: z.number().nullable(),
  }),
}

const sweep = z.strictObject({
  duties: z.array(z.number()),
  nozzleRatios: z.array(z.number()),
  arrangements: z.array(z.enum(arrangements)),
  charge: z.number(),
  resolution: z.strictObject({ speed: z.number(), time: z.number(), cost: z.number(), margin: z.number() }),
  wholeFront: z.boolean(),
})

export const understoodRequest = z
  .strictObject({
    ...circumstances,
    address: z.string().nullable(),
    target: z.strictObject({ speed: z.number(), basis: z.enum(speedBases) }),
    budget: z.number().nullable(),
    budgetCurrency: z.string().nullable(),
    required: z.array(z.string()),
    excluded: z.array(z.string()),
    wanted: z.strictObject({ flightTime: z.number(), margin: z.number() }),
    wishes: z.strictObject({
      weights: z.strictObject({ speed: z.number(), time: z.number(), cost: z.number(), margin: z.number() }),
      expression: z.string().nullable(),
    }),
    sweep,
  })
  .meta({ description: 'A sweep request as understood: SI units, defaults filled in.' })

export const understoodSetup = z
  .strictObject({ ...circumstances, setup: chosenSetup, target: z.number().nullable(), charge: z.number() })
  .meta({ description: 'A setup request as understood: SI units, defaults filled in.' })

/** Does not compile when a schema and its interface differ. */
export const understoodAgrees: readonly [
  Same<SetupChoice, z.output<typeof chosenSetup>>,
  Same<Airframe, z.output<typeof airframeSi>>,
  Same<SweepRequest, z.output<typeof understoodRequest>>,
  Same<SetupRequest, z.output<typeof understoodSetup>>,
] = [true, true, true, true]
