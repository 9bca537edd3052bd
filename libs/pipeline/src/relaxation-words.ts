// What a relaxation asks for and what it would bring, in a sentence. What it takes to buy stands beside it as a list.
import { figure, money } from '@ductwright/contract/figures'
import type { Objectives, Relaxation } from '@ductwright/contract/result'
import { performance } from './sentences.js'

export interface Relaxed {
  readonly relax: Relaxation['relax']
  /** In the unit of the answer. */
  readonly from: number
  readonly to: number
  readonly raw: Objectives
  readonly currency: string
}

export function relaxWords({ relax, from, to, raw, currency }: Relaxed): string {
  return `${asks(relax, from, to, currency)}: then ${performance(raw, currency)}.${CAUTIONS[relax] ?? ''}`
}

/** What giving way there asks of the pilot or the airframe. */
const CAUTIONS: Readonly<Partial<Record<Relaxation['relax'], string>>> = {
  'take-off-mass': ' It then lands faster and asks more of the wing.',
  margin: ' Loads then come closer to what breaks it.',
  'stall-speed': ' It then lands faster.',
}

function asks(relax: Relaxation['relax'], from: number, to: number, currency: string): string {
  switch (relax) {
    case 'budget':
      return `Raise the budget from ${money(from, currency)} to ${money(to, currency)}`
    case 'take-off-mass':
      return `Raise the take-off mass allowed from ${figure('mass', from)} to ${figure('mass', to)}`
    case 'margin':
      return `Lower the reserve kept below the design load from ${figure('exactPercent', from)} to ${figure('exactPercent', to)}`
    case 'flight-time':
      return `Lower the least flight time from ${figure('seconds', from)} to ${figure('seconds', to)}`
    case 'stall-speed':
      return `Raise the stall speed allowed from ${figure('fineSpeed', from)} to ${figure('fineSpeed', to)}`
    case 'drag-area':
      return `Bring the drag area down from ${figure('dragArea', from)} to ${figure('dragArea', to)}`
    case 'target':
      return `Lower the target from ${figure('fineSpeed', from)} to ${figure('fineSpeed', to)}`
  }
}

/** Whether clean-up work can do it; areas in m². */
export function cleanedWords(cleaned: number | null, needed: number): string {
  if (cleaned === null) return ''
  const area = figure('dragArea', cleaned * 1e4)
  return cleaned <= needed
    ? ` All the clean-up work left brings it to ${area}, which is enough.`
    : ` All the clean-up work left brings it to ${area} only.`
}
