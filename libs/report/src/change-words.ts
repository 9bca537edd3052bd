// Which change of the request the owner can make, and the clean-up work that makes up for too much drag.
import { figure, money } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Relaxation, Result, TreatmentGain } from '@ductwright/contract/result'

/** The smallest change that is in the owner's hands; less drag only where clean-up work not done yet takes off as much. */
export function feasibleChange(result: Result): { readonly change: Relaxation; readonly how: string } | undefined {
  for (const change of result.relaxations) {
    const work = change.relax === 'drag-area' ? enoughWork(change, result) : []
    if (work !== null) return { change, how: work.length === 0 ? '' : workWords(work, result) }
  }
  return undefined
}

/** The pieces of work that together take off the drag, as few as do; null when all of them are not enough. */
function enoughWork({ from, to }: Relaxation, { picks }: Result): TreatmentGain[] | null {
  const left = picks.find(({ pick }) => pick === 'fastest')?.study.sensitivity.treatments ?? []
  const need = (from - to) / 1e4
  const alone = [...left]
    .sort((a, b) => a.drag_area_cut_m2 - b.drag_area_cut_m2)
    .find((work) => work.drag_area_cut_m2 >= need)
  if (alone !== undefined) return [alone]
  const chosen: TreatmentGain[] = []
  for (const work of [...left].sort((a, b) => b.drag_area_cut_m2 - a.drag_area_cut_m2)) {
    chosen.push(work)
    if (chosen.reduce((sum, { drag_area_cut_m2: cut }) => sum + cut, 0) >= need) return chosen
  }
  return null
}

function workWords(work: readonly TreatmentGain[], { catalogue }: Result): string {
  const named = work.map(({ words, price, hours }) => {
    const takes = `${money(price, catalogue.currency)} and ${figure('hours', hours)}`
    return `${inert(words, 120)} (${takes})`
  })
  return ` That takes: ${named.join('; ')}.`
}
