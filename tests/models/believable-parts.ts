// Invented parts by the laws the catalogue is made with (assumed ranges), and random ones for property tests: what a
// model meets in practice, good and bad, without the scatter of names and prices.
import type { Airframe } from '@ductwright/models/airframe/airframe'
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import type { Esc } from '@ductwright/models/esc/esc'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import { fanNode } from '@ductwright/models/evaluation/fan-node'
import type { Fan } from '@ductwright/models/fan/fan'
import type { Motor } from '@ductwright/models/motor/motor'
import { arrange } from '@ductwright/models/pack/arrangement'
import type { Pack } from '@ductwright/models/pack/pack'
import type { Circumstances } from '@ductwright/models/sweep/problem'
import fc from 'fast-check'

export const RPM = Math.PI / 30
export const DEGREE = Math.PI / 180
export const KMH = 1 / 3.6

/** Flow coefficient standing with a nozzle of 0.88 and a duct loss of 0.18, where the laws place the peak efficiency. */
function standingFlow(psi0: number, psi1: number): number {
  const c = 1 / 0.88 ** 2 + 0.18
  return (Math.sqrt(psi1 * psi1 + 2 * c * psi0) - psi1) / c
}

export function fanOf(tipDiameter: number, changes: Partial<Fan> & { phiLead?: number } = {}): Fan {
  const { phiLead = 0.06, ...given } = changes
  const x = tipDiameter / 0.09
  const psi0 = given.psi0 ?? 0.7
  const psi1 = given.psi1 ?? 0.68
  return {
    id: 'fan',
    tipDiameter,
    hubDiameter: 0.467 * tipDiameter,
    psi0,
    psi1,
    etaPeak: Math.min(0.75, Math.max(0.65, 0.71 + 0.15 * Math.log(x))),
    phiPeak: standingFlow(psi0, psi1) + phiLead,
    kappa: 0.45,
    tipSpeedLimit: 210,
    motorCanLimit: 0.4 * tipDiameter,
    shaftBore: 0.005,
    mass: 0.24 * x ** 2.5,
    ...given,
  }
}

/** Speed constant in rpm/V, mass in kg; `quality` moves the motor constant squared. */
export function motorOf(rpmPerVolt: number, mass: number, quality = 1): Motor {
  const kv = rpmPerVolt * RPM
  const scale = mass / 0.33
  const short = 15_500 * mass
  return {
    id: 'motor',
    speedConstant: kv,
    timingReference: 10 * DEGREE,
    resistance: 1 / (kv * kv * 6.5e-3 * scale ** (5 / 3) * quality),
    noLoadCurrent: kv * mass * 0.058,
    noLoadCurrentSlope: kv * mass * 1.39e-5,
    polePairs: 2,
    canDiameter: 0.036,
    canLength: 0.06,
    shaftDiameter: 0.005,
    cellsMax: 14,
    speedLimit: 60_000 * RPM,
    currentLimit: 200,
    powerLimit: short,
    continuousCurrent: (200 * 10) / 15.5,
    continuousPower: (short * 10) / 15.5,
    windingTemperatureLimit: ZERO_CELSIUS + 150,
    magnetTemperatureLimit: ZERO_CELSIUS + 150,
    windingHeatCapacity: 0.2 * mass * 385,
    caseHeatCapacity: 0.8 * mass * 480,
    windingToCaseConductance: 7 * scale,
    caseToAirConductance: 2.5 * scale ** (2 / 3),
    mass,
  }
}

export function escOf(label: number, changes: Partial<Esc> = {}): Esc {
  const scale = label / 160
  return {
    id: 'esc',
    resistance: 0.22 / label,
    resistanceTemperatureCoefficient: 0.006,
    quiescentPower: 4,
    proportionalLoss: 0.003,
    switchingTime: 100e-9,
    switchingFrequency: 24e3,
    freewheelDrop: 0,
    deadTimeDrop: 2 * 300e-9 * 24e3 * 0.8,
    freewheelResistanceShare: 1,
    cellsMin: 3,
    cellsMax: 14,
    currentLimit: label,
    electricalSpeedLimit: 300_000 * RPM,
    timings: [10 * DEGREE],
    receiverSupplyCurrent: 8,
    connector: 'open',
    boardHeatCapacity: 20 * scale,
    sinkHeatCapacity: 60 * scale,
    boardToSinkConductance: 1.5 * scale,
    sinkToAirConductance: 0.35 * scale ** (2 / 3),
    boardTemperatureLimit: ZERO_CELSIUS + 120,
    mass: 0.025 + 0.0011 * label,
    ...changes,
  }
}

/** Capacity in Ah; `k` in Ω·Ah per cell. */
export function packOf(cells: number, capacity: number, k = 0.009): Pack {
  const mass = cells * capacity * (0.0205 + 3e-5 / k) + 0.03
  const rating = (0.28 / k) * capacity
  return {
    id: 'pack',
    cells,
    capacity: capacity * 3600,
    cellResistance: k / capacity,
    leadResistance: 1.5e-3,
    continuousCurrent: rating,
    currentLimit: 1.5 * rating,
    connector: 'open',
    length: 0.14,
    width: 0.05,
    height: 0.05,
    heatCapacity: 0.92 * mass * 1050,
    temperatureLimit: ZERO_CELSIUS + 60,
    mass,
  }
}

export function airframeOf(changes: Partial<Airframe> = {}): Airframe {
  return {
    id: 'airframe',
    dragArea: 0.0052,
    dragBasis: 'stated',
    dragGeometry: null,
    span: 1.1,
    wingArea: 0.26,
    oswald: 0.8,
    liftCoefficientMax: 1,
    liftCoefficientMaxFlaps: 1.4,
    emptyMass: 2.35,
    takeOffMassLimit: 5.5,
    fanDiameterMin: 0.05,
    fanDiameterMax: 0.13,
    exitDiameterMin: 0.03,
    exitDiameterMax: 0.13,
    ductLoss: 0.18,
    inletLoss: 0,
    inletArea: 0.006,
    lipLoss: 0,
    ramRecovery: 0.93,
    bayLength: 0.4,
    bayWidth: 0.15,
    bayHeight: 0.12,
    designSpeed: 447 * KMH,
    structure: null,
    rootMomentUltimate: 130,
    mountLoad: 130,
    launch: 'wheels',
    centreOfGravity: 0.56,
    emptyStation: 0.6,
    fanStation: 0.7,
    escStation: 0.45,
    packStationMin: 0.2,
    packStationMax: 0.5,
    noseBallastStation: 0.04,
    tailBallastStation: 1.15,
    ballastLimit: 0.6,
    ...changes,
  }
}

export function circumstancesOf(airframe: Airframe, changes: Partial<Circumstances> = {}): Circumstances {
  return {
    airframe,
    density: 1.225,
    soundSpeed: 340.294,
    airTemperature: ZERO_CELSIUS + 15,
    pressure: 101_325,
    viscosity: 1.78938e-5,
    mass: { limit: airframe.takeOffMassLimit, fixed: null },
    runway: 120,
    rollingFriction: 0.04,
    profile: {
      flightTime: 240,
      fullThrottleShare: 0.25,
      passTime: 10,
      cruiseSpeed: 40,
      reserve: 0.2,
      loadFactor: 6,
      turnRadius: Number.POSITIVE_INFINITY,
      pullUpRadius: Number.POSITIVE_INFINITY,
      climbHeight: 60,
      approachTime: 30,
    },
    run: { length: 400, entrySpeedShare: 0.6, entryHeight: 0, diveAngle: Math.PI / 6 },
    limits: {
      budget: Number.POSITIVE_INFINITY,
      margin: 0,
      headroom: 0,
      stallSpeed: 25,
      thrustToWeight: 0.4,
      flightTime: 0,
      speedFloor: 0,
    },
    charge: 0.7,
    speedBasis: 'steady',
    ...changes,
  }
}

/** One setup in its circumstances. */
export interface BelievableSetup {
  readonly circumstances: Circumstances
  readonly parts: Parts
  readonly fan: Fan
}

export function setupOf(
  circumstances: Circumstances,
  fan: Fan,
  motor: Motor,
  esc: Esc,
  pack: Pack,
  nozzleRatio = 0.88,
): BelievableSetup {
  const parts: Parts = {
    node: fanNode(circumstances, fan, nozzleRatio),
    motor,
    esc,
    timing: esc.timings[0] ?? motor.timingReference,
    source: arrange(pack, 'single'),
    pairMass: fan.mass + motor.mass,
    escMass: esc.mass,
    cost: 500,
  }
  return { circumstances, parts, fan }
}

const share = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Sizes with the cell counts they are flown on and the motor mass they take. */
const CLASSES = [
  { size: 0.06, cells: [3, 4], mass: 0.085 },
  { size: 0.07, cells: [4, 6], mass: 0.145 },
  { size: 0.08, cells: [6, 8], mass: 0.25 },
  { size: 0.09, cells: [6, 8, 10, 12], mass: 0.35 },
  { size: 0.105, cells: [10, 12, 14], mass: 0.5 },
  { size: 0.12, cells: [12, 14], mass: 0.66 },
] as const

/** Tip speed standing that a wind aims at, by cells over fan size: sane winds only. */
function windOf(size: number, cells: number, tipSpeed: number): number {
  const loaded = 0.83 * 3.9 * cells
  return tipSpeed / (0.5 * size) / loaded / RPM
}

/** Random setups within the ranges of the laws. */
export const believableSetups: fc.Arbitrary<BelievableSetup> = fc
  .record({
    place: fc.nat({ max: CLASSES.length - 1 }),
    cells: fc.nat({ max: 3 }),
    psi0: share(0.62, 0.76),
    psi1: share(0.55, 0.8),
    eta: share(0.63, 0.77),
    kappa: share(0.3, 0.8),
    phiLead: share(0.03, 0.09),
    nozzleRatio: share(0.8, 0.95),
    ductLoss: share(0.12, 0.35),
    lipLoss: share(0, 0.35),
    ramRecovery: share(0.85, 0.97),
    tipSpeed: share(130, 200),
    quality: share(0.85, 1.15),
    label: share(0.8, 2),
    diode: fc.boolean(),
    capacity: share(0.7, 1.5),
    k: share(0.006, 0.02),
    dragScale: share(0.6, 1.8),
    density: share(0.95, 1.35),
    duty: share(0.5, 1),
  })
  .map((draw) => {
    const { size, cells, mass } = CLASSES[draw.place] ?? CLASSES[3]
    const count = cells[draw.cells % cells.length] ?? 8
    const x = size / 0.09
    const area = x * x
    const airframe = airframeOf({
      dragArea: 0.0052 * area * draw.dragScale,
      span: 1.1 * x,
      wingArea: 0.26 * area,
      emptyMass: 2.35 * x ** 2.5,
      takeOffMassLimit: 8 * x ** 2.5,
      ductLoss: draw.ductLoss,
      lipLoss: draw.lipLoss,
      ramRecovery: draw.ramRecovery,
      rootMomentUltimate: 130 * x ** 4,
      mountLoad: 130 * area,
    })
    const { psi0, psi1, kappa, phiLead } = draw
    const fan = fanOf(size, { psi0, psi1, kappa, phiLead, etaPeak: draw.eta })
    const motor = motorOf(windOf(size, count, draw.tipSpeed), mass, draw.quality)
    const esc = escOf(
      draw.label * 120 * x,
      draw.diode ? { freewheelDrop: 0.7, deadTimeDrop: 0, freewheelResistanceShare: 0.5 } : {},
    )
    const circumstances = circumstancesOf(airframe, { density: draw.density })
    return setupOf(circumstances, fan, motor, esc, packOf(count, 5 * draw.capacity * x, draw.k), draw.nozzleRatio)
  })
