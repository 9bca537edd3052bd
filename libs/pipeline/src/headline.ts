// The answer in one or two sentences. A no names what is in the way: the limit whose least relaxation would do, else drag, fan
// size, or whatever else of the airframe.
import { figure, money } from '@ductwright/contract/figures'
import type { NearMiss, Objectives, PurchaseLine, Relaxation, Result } from '@ductwright/contract/result'
import { buying, listed, performance } from './sentences.js'

interface Candidate {
  readonly raw: Objectives
  readonly shopping: readonly PurchaseLine[]
}

/** What the headline is made of. `best` is the first of the ranking, `safest` of those that reach; speeds in km/h. */
export interface HeadlineFacts {
  readonly outcome: Result['outcome']
  readonly target: number
  readonly best: Candidate | null
  readonly safest: Candidate | null
  readonly fastest: Objectives | null
  /** What holds the fastest within the limits back, listed or not, in words; null where nothing holds them. */
  readonly heldBack: string | null
  readonly airframe: string
  /** The setup that comes nearest, where the answer is no. */
  readonly nearest: Pick<NearMiss, 'broken'> | null
  readonly relaxations: readonly Relaxation[]
  /** Fan diameters that would do where the duct takes none of them, mm; null: a size is not what is missing. */
  readonly fanSize: number | null
  /** Where nothing that the request allows goes together: the reason met most, in words; null elsewhere. */
  readonly misfit: string | null
  readonly currency: string
}

/** `blamed` is what stands in the way; null where the answer is yes. */
export function headlineOf(facts: HeadlineFacts): Pick<Result, 'headline' | 'blamed'> {
  const yes = yesWords(facts)
  if (yes !== null) return { headline: yes, blamed: null }
  if (facts.misfit !== null && facts.fanSize === null) {
    const words = `nothing that the request allows goes together in the ${facts.airframe}; most often: ${facts.misfit}.`
    return { headline: `Not with these parts: ${words}`, blamed: 'these parts' }
  }
  const { blamed, words } = refusal(facts)
  // Where one thing is to blame, it is what stands in the way.
  const obstacle = blamed === AIRFRAME ? obstacleWords(facts) : ''
  return { headline: `Not with ${blamed}: ${words} ${withinWords(facts)}${obstacle}`, blamed }
}

/** null where the answer is no. */
function yesWords(facts: HeadlineFacts): string | null {
  const { outcome, target, best, safest, airframe, currency } = facts
  if (outcome !== 'reached' || best === null || safest === null) return null
  const within = `${figure('speed', target)} is within reach of the ${airframe}`
  const does = ({ raw, shopping }: Candidate): string => `${performance(raw, currency)}; buy ${buying(shopping)}`
  if (best.raw.speed_km_h >= target) return `Yes: ${within}. The best setup does ${does(best)}.`
  return `Yes, but with less reserve than wanted: ${within}. The safest setup that reaches it does ${does(safest)}.`
}

/** To blame where no single limit is. */
const AIRFRAME = 'this airframe'

interface Refusal {
  readonly blamed: string
  readonly words: string
}

/** What stands in the way: an owner's limit first, since that is the owner's to move. */
function refusal(facts: HeadlineFacts): Refusal {
  const { relaxations, fanSize, airframe, currency } = facts
  const wanted = `${figure('speed', facts.target)} in the ${airframe}`
  const first = relaxations.find(({ relax }) => relax !== 'target')
  switch (first?.relax) {
    case 'budget':
      return {
        blamed: 'this budget',
        words: `${wanted} takes ${money(first.to, currency)}, and ${money(first.from, currency)} are allowed.`,
      }
    case 'take-off-mass':
      return {
        blamed: 'this take-off mass',
        words: `${wanted} takes ${figure('mass', first.to)}, and ${figure('mass', first.from)} are allowed.`,
      }
    case 'margin':
      return {
        blamed: 'this reserve',
        words: `${wanted} leaves ${figure('exactPercent', first.to)} below the design load, and ${figure('exactPercent', first.from)} is to be kept.`,
      }
    case 'flight-time':
      return {
        blamed: 'this flight time',
        words: `${wanted} leaves ${figure('seconds', first.to)}, and ${figure('seconds', first.from)} are to be flown.`,
      }
    case 'stall-speed':
      return {
        blamed: 'this stall speed',
        words: `${wanted} takes ${figure('fineSpeed', first.to)}, and ${figure('fineSpeed', first.from)} is allowed.`,
      }
  }
  if (fanSize !== null) {
    return {
      blamed: 'this fan size',
      words: `${wanted} takes a fan of ${figure('station', fanSize)}, which its duct does not take.`,
    }
  }
  if (first?.relax === 'drag-area') {
    return {
      blamed: 'this airframe as it is',
      words: `${wanted} takes a drag area of ${figure('dragArea', first.to)}, and it has ${figure('dragArea', first.from)}.`,
    }
  }
  return { blamed: AIRFRAME, words: `no setup of this catalogue does ${wanted}.` }
}

/** What holds the fastest back; where nothing holds the limits, what stops the setup that comes nearest. */
function obstacleWords({ heldBack, nearest }: HeadlineFacts): string {
  if (heldBack !== null) return ` What holds it back: ${heldBack}.`
  const stops = nearest?.broken.filter(({ limit }) => limit !== 'speed-floor').map(({ words }) => words) ?? []
  return stops.length === 0 ? '' : ` The setup that comes nearest is stopped by: ${listed(stops)}.`
}

function withinWords({ relaxations, fastest, currency, target }: HeadlineFacts): string {
  const reached = fastest ?? relaxations.find(({ relax }) => relax === 'target')?.raw ?? null
  if (reached === null) return 'No setup of this catalogue flies within the limits given.'
  return `Within the limits given the fastest setup does ${performance(reached, currency, target)}.`
}
