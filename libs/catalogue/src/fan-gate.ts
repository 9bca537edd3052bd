// Keeps fans out of a catalogue whose characteristic no real rotor of this kind has: such a fan would let the sweep find
// speed that is not there. Judged in one reference duct at the listed efficiency, from standing up to where the efflux is
// 1.4 times flight speed, about the fastest a fitted jet gets.
// Assumed: the reference duct and every bound; they hold for 4,000 believable characteristics drawn at random.
import { annulusArea, meanRadius } from '@ductwright/models/fan/annulus'
import { ETA_FLOOR, stageEfficiency } from '@ductwright/models/fan/characteristic'
import { eulerWork, standingDeHaller } from '@ductwright/models/fan/diffusion'
import { ceilingAdvanceRatio, type Ducted, flowCoefficient, powerCoefficient } from '@ductwright/models/fan/duct-flow'
import { NO_LOSS_SCALE } from '@ductwright/models/fan/efficiency-scaling'
import type { Fan } from '@ductwright/models/fan/fan'

const REFERENCE = { nozzleRatio: 0.88, ductLoss: 0.18, lipLoss: 0, ramRecovery: 0.93, lossScale: NO_LOSS_SCALE }
/** Blade speed, m/s; without scaling of losses it does not matter. */
const BLADE_SPEED = 100
const EFFLUX_RATIO = 1.4
const EULER_WORK_MAX = 0.55
const DE_HALLER_MIN = 0.7
const POWER_CHANGE_MIN = -0.18
const POWER_CHANGE_MAX = -0.02
const STEPS = 24

/** One bound a fan breaks: its key, the figure found, and a sentence. */
export interface GateBreach {
  readonly rule: 'euler-work' | 'euler-work-slope' | 'de-haller' | 'power-in-flight' | 'efficiency-floor'
  readonly found: number
  readonly words: string
}

/** What a fan is judged by, in the reference duct. */
export interface GateFigures {
  /** Euler work coefficient standing, the highest of the range when it falls with flow. */
  readonly eulerWork: number
  /** Largest rise of Euler work over one step of rising flow; 0 when it only falls. */
  readonly eulerWorkRise: number
  readonly deHaller: number
  /** Relative change of shaft power at equal shaft speed from standing to flight. */
  readonly powerChange: number
  /** Lowest efficiency from standing to zero thrust. */
  readonly efficiency: number
}

/** The bounds a fan breaks; none for a believable fan. */
export function fanGate(fan: Fan): readonly GateBreach[] {
  const figures = gateFigures(fan)
  return [...euler(figures), ...deHaller(figures), ...power(figures), ...efficiency(figures)]
}

export function gateFigures(fan: Fan): GateFigures {
  const duct: Ducted = { fan, area: annulusArea(fan), radius: meanRadius(fan), ...REFERENCE }
  const fast = advanceRatioAt(duct, EFFLUX_RATIO)
  const works = Array.from({ length: STEPS + 1 }, (_, i) => eulerWork(fan, flowCoefficient(duct, (fast * i) / STEPS)))
  const ends = [0, ceilingAdvanceRatio(duct)].map((j) => stageEfficiency(fan, flowCoefficient(duct, j)))
  return {
    eulerWork: Math.max(...works),
    eulerWorkRise: Math.max(0, ...works.slice(1).map((work, i) => work - works[i]!)),
    deHaller: standingDeHaller(duct),
    powerChange: powerCoefficient(duct, fast, BLADE_SPEED) / powerCoefficient(duct, 0, BLADE_SPEED) - 1,
    efficiency: Math.min(...ends),
  }
}

/** Advance ratio at which the efflux is `ratio` times flight speed; that quotient falls steadily with j, so halving finds it. */
function advanceRatioAt(duct: Ducted, ratio: number): number {
  let low = 0
  let high = ceilingAdvanceRatio(duct)
  for (let i = 0; i < 60; i++) {
    const j = 0.5 * (low + high)
    if (flowCoefficient(duct, j) > ratio * duct.nozzleRatio * j) low = j
    else high = j
  }
  return high
}

function euler(figures: GateFigures): GateBreach[] {
  const breaches: GateBreach[] = []
  if (figures.eulerWorkRise > 0)
    breaches.push({
      rule: 'euler-work-slope',
      found: figures.eulerWorkRise,
      words:
        'blade work rises with flow between standing and top speed; lower the flow coefficient of peak efficiency, or raise the slope',
    })
  if (!(figures.eulerWork <= EULER_WORK_MAX))
    breaches.push({
      rule: 'euler-work',
      found: figures.eulerWork,
      words: `blade work coefficient ${figures.eulerWork.toFixed(3)} is above ${EULER_WORK_MAX}`,
    })
  return breaches
}

function deHaller(figures: GateFigures): GateBreach[] {
  if (figures.deHaller >= DE_HALLER_MIN) return []
  const words = `standing de Haller number ${figures.deHaller.toFixed(3)} is below ${DE_HALLER_MIN}: the blades would stall`
  return [{ rule: 'de-haller', found: figures.deHaller, words }]
}

function power({ powerChange }: GateFigures): GateBreach[] {
  if (powerChange >= POWER_CHANGE_MIN && powerChange <= POWER_CHANGE_MAX) return []
  const words = `shaft power changes by ${(100 * powerChange).toFixed(1)} % from standing to flight; allowed ${100 * POWER_CHANGE_MIN} to ${100 * POWER_CHANGE_MAX} %`
  return [{ rule: 'power-in-flight', found: powerChange, words }]
}

function efficiency(figures: GateFigures): GateBreach[] {
  if (figures.efficiency > ETA_FLOOR) return []
  const words = `efficiency falls to its floor of ${ETA_FLOOR} before thrust is gone; lower efficiency_curvature`
  return [{ rule: 'efficiency-floor', found: figures.efficiency, words }]
}
