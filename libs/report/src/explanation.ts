// "Why not mine": a setup held against an answer. What keeps it out, where it stands in the list, or which setup of the
// list beats it and by how much. As data here; in words in explanation-text.ts.
import type { SetupChoice } from '@ductwright/contract/request'
import type { LimitUse, Member, Objectives, Result } from '@ductwright/contract/result'
import { comparisonOf, type WhyNot, whyNot } from './page/why-not.js'
import type { Names } from './setup-words.js'

/** A setup as the request judges it. */
export interface JudgedSetup {
  readonly setup: SetupChoice
  readonly names: Names
  /** Why it cannot be built or flown at all. */
  readonly refused: readonly { readonly rule: string; readonly words: string }[]
  /** Parts of it that the request leaves no choice of. */
  readonly left_out: readonly string[]
  /** Settings of it that the request has not tried. */
  readonly untried: readonly ('duty' | 'nozzle_ratio' | 'arrangement')[]
  /** Limits it breaks, as shares of what is allowed, the worst first. */
  readonly broken: readonly LimitUse[]
  /** null when nothing can be worked out. */
  readonly raw: Objectives | null
}

export interface Explanation extends JudgedSetup {
  readonly format: 'ductwright-explanation/1'
  readonly model_version: string
  readonly catalogue: Result['catalogue']
  readonly request_hash: string
  readonly answer_hash: string
  readonly title: string
  readonly airframe: string
  readonly verdict: 'refused' | 'left-out' | 'breaks-limits' | 'listed' | WhyNot['verdict']
  /** The setup of the list it is held against; null when it is kept out, or the list is empty. */
  readonly against: Pick<Member, 'rank' | 'setup' | 'raw'> | null
  /** How much better that one is, each figure turned so that more is better; null without one. */
  readonly ahead: Objectives | null
  /** What the limits ask for, for those that are told in figures. */
  readonly asked: {
    readonly budget: number | null
    readonly margin: number
    readonly flight_time_s: number | null
    readonly speed_floor_km_h: number
  }
}

export function explanationOf(judged: JudgedSetup, result: Result): Explanation {
  const { understood, rules } = result
  return {
    ...judged,
    ...verdictOf(judged, result),
    format: 'ductwright-explanation/1',
    model_version: result.model_version,
    catalogue: result.catalogue,
    request_hash: result.request_hash,
    answer_hash: result.answer_hash,
    title: understood.title,
    airframe: result.airframe.name,
    names: { ...result.names, ...judged.names },
    asked: {
      budget: understood.budget,
      margin: understood.limits.margin,
      flight_time_s: understood.limits.flightTime,
      speed_floor_km_h: rules.speed_floor_km_h,
    },
  }
}

/** Whether the setup is no answer to the request at all. */
export function isOut({ verdict }: Explanation): boolean {
  return ['refused', 'left-out', 'breaks-limits'].includes(verdict)
}

type Verdict = Pick<Explanation, 'verdict' | 'against' | 'ahead'>

function verdictOf(judged: JudgedSetup, result: Result): Verdict {
  const alone = { against: null, ahead: null }
  const { refused, left_out, broken, raw, setup } = judged
  if (refused.length > 0 || raw === null) return { verdict: 'refused', ...alone }
  if (left_out.length > 0) return { verdict: 'left-out', ...alone }
  if (broken.length > 0) return { verdict: 'breaks-limits', ...alone }
  const own = result.front.find((member) => isSame(member.setup, setup))
  if (own !== undefined) return { verdict: 'listed', against: own, ahead: null }
  return compared(raw, result)
}

function compared(raw: Objectives, result: Result): Verdict {
  const judgement = whyNot(result.front, raw, comparisonOf(result))
  const other = result.front.find(({ rank }) => rank === judgement?.rank)
  if (judgement === null || other === undefined) return { verdict: 'unbeaten', against: null, ahead: null }
  const against = { rank: other.rank, setup: other.setup, raw: other.raw }
  return { verdict: judgement.verdict, against, ahead: judgement.ahead }
}

const settings = ['timing_deg', 'nozzle_ratio', 'duty'] as const
const parts = ['fan', 'motor', 'esc', 'pack', 'arrangement'] as const

/** The same parts, and settings that nobody could tell apart. */
function isSame(a: SetupChoice, b: SetupChoice): boolean {
  return parts.every((key) => a[key] === b[key]) && settings.every((key) => Math.abs(a[key] - b[key]) < 1e-6)
}
