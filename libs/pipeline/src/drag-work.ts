// What clean-up work alone would do, with the parts that are flown now, or else with the best of the list.
import { figure, money } from '@ductwright/contract/figures'
import type { Result } from '@ductwright/contract/result'
import type { SetupDetail } from '@ductwright/models/evaluation/setup-detail'
import { plain } from './figures-of.js'
import type { Prepared } from './prepare.js'
import { listed, lower } from './sentences.js'
import { openTreatments } from './treatments.js'
import { type WorkBase, workCost, workGain } from './work-gain.js'

const KMH = 3.6

/** Work that the request switches on counts too: it is not done yet. null where no work is left, or none that helps. */
export function dragWorkOf(prepared: Prepared, now: SetupDetail | null, best: SetupDetail | null): Result['drag_work'] {
  const { chosen, catalogue } = prepared
  const { untreated, referenceSpeed, treatments } = chosen
  const detail = now ?? best
  if (detail === null) return null
  const base: WorkBase = { untreated, referenceSpeed, done: now === null ? treatments : [] }
  const work = openTreatments(
    untreated,
    base.done.map(({ kind }) => kind),
    catalogue,
  ).filter((treatment) => workGain(detail, base, [treatment]).gain > 0)
  const { gain } = workGain(detail, base, work)
  if (work.length === 0 || !(gain > 0)) return null
  const before = detail.level.top.speed * KMH
  const then = before + gain * KMH
  const { price, hours } = workCost(work)
  const parts = now === null ? 'the best setup of the list' : 'the parts that fly now'
  const names = listed(work.map(({ name }) => lower(name)))
  const cost = `${price > 0 ? money(price, catalogue.currency) : 'no money'} and ${figure('hours', hours)} of work`
  return {
    speed_now_km_h: plain(before),
    speed_then_km_h: plain(then),
    price,
    hours: plain(hours),
    words: `Clean-up work alone would take ${parts} from ${figure('speed', before)} to ${figure('speed', then)} level, for ${cost}: ${names}.`,
  }
}
