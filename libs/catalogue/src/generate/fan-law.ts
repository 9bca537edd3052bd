// Figures of an invented fan from its family and size. Larger rotors are a little more efficient, finer pitch has the
// steeper pressure-rise line, and better construction weighs and costs more but may turn faster.
// Assumed: every law; a draw that the fan gate refuses is drawn again.
import { annulusArea, meanRadius } from '@ductwright/models/fan/annulus'
import { flowCoefficient } from '@ductwright/models/fan/duct-flow'
import { NO_LOSS_SCALE } from '@ductwright/models/fan/efficiency-scaling'
import type { Fan } from '@ductwright/models/fan/fan'
import { fanGate } from '../fan-gate.js'
import { type fanColumns, fanRow } from '../rows/fan-row.js'
import { type FanFamily, type Row, slug } from './plan.js'
import { RandomStream } from './random.js'
import { toDigits, toPrice, toStep } from './rounding.js'
import { ROOMY_SIZE, sizeClass } from './size-class.js'

export type FanCells = Row<typeof fanColumns>

const SLOPE = { coarse: 0.6, mid: 0.68, fine: 0.78 }
/** kg and € at 90 mm with their powers of size, and the tip speed range, m/s. */
const CONSTRUCTION = {
  plastic: { mass: 0.2, massPower: 2.5, price: 45, pricePower: 1.6, tipSpeed: [165, 175] },
  reinforced: { mass: 0.24, massPower: 2.5, price: 75, pricePower: 1.9, tipSpeed: [182, 192] },
  alloy: { mass: 0.3, massPower: 2.6, price: 130, pricePower: 2.2, tipSpeed: [205, 215] },
  billet: { mass: 0.31, massPower: 2.6, price: 235, pricePower: 2.2, tipSpeed: [232, 238] },
} as const
const DRAWS = 200

export function fanCells(family: FanFamily, size: number, seed: number, currency: string): FanCells {
  const random = new RandomStream(seed, `fan ${family.maker} ${family.name} ${size}`)
  for (let i = 0; i < DRAWS; i++) {
    const cells = drawFan(family, size, random, currency)
    if (fanGate(fanRow.parse(cells).part).length === 0) return cells
  }
  throw new RangeError(`fan ${family.name} ${size}: ${DRAWS} draws all broke the fan gate; choose a milder family`)
}

function drawFan(family: FanFamily, size: number, random: RandomStream, currency: string): FanCells {
  const x = size / 90
  const build = CONSTRUCTION[family.construction]
  const peak = 0.71 + 0.15 * Math.log(x)
  const hub = toStep(size * random.between(0.45, 0.5), 0.5)
  const psi0 = toDigits(random.between(0.66, 0.74), 3)
  const psi1 = toDigits(random.around(SLOPE[family.pitch], 0.03), 3)
  const eta = Math.min(0.77, Math.max(0.63, peak + family.quality + random.between(-0.006, 0.006)))
  return {
    id: slug('fan', family.name, size, family.blades),
    maker: family.maker,
    name: `${family.name} ${size}-${family.blades}`,
    tip_diameter_mm: size,
    hub_diameter_mm: hub,
    pressure_rise_at_zero_flow: psi0,
    pressure_rise_slope: psi1,
    peak_efficiency_percent: toStep(100 * eta, 0.1),
    peak_efficiency_flow_coefficient: toDigits(standingFlow(size, hub, psi0, psi1) + random.between(0.03, 0.09), 3),
    efficiency_curvature: toDigits(random.between(0.35, 0.6), 2),
    tip_speed_limit_m_s: Math.round(random.between(...(build.tipSpeed as [number, number]))),
    motor_can_limit_mm: canLimit(size, hub, random),
    shaft_bore_mm: sizeClass(size).shaft_mm,
    mass_g: Math.round(1000 * random.around(build.mass * x ** build.massPower, 0.08)),
    price: toPrice(family.price * random.around(build.price * x ** build.pricePower, 0.06)),
    currency,
  }
}

function canLimit(size: number, hub: number, random: RandomStream): number {
  return Math.min(sizeClass(size).can + random.whole(0, size >= ROOMY_SIZE ? 1 : 0), Math.floor(hub))
}

/** Flow coefficient standing in the duct the laws refer to: nozzle ratio .88, loss .18. */
function standingFlow(size: number, hub: number, psi0: number, psi1: number): number {
  const fan: Fan = {
    id: '',
    tipDiameter: size / 1000,
    hubDiameter: hub / 1000,
    psi0,
    psi1,
    etaPeak: 1,
    phiPeak: 1,
    kappa: 0,
    tipSpeedLimit: 1,
    motorCanLimit: 0,
    shaftBore: 0,
    mass: 0,
  }
  const duct = {
    fan,
    area: annulusArea(fan),
    radius: meanRadius(fan),
    nozzleRatio: 0.88,
    ductLoss: 0.18,
    lipLoss: 0,
    ramRecovery: 0.93,
    lossScale: NO_LOSS_SCALE,
  }
  return flowCoefficient(duct, 0)
}
