// The answer in one or two sentences. A no names what is in the way: the limit whose least relaxation would do, else drag, fan
// size, or whatever else of the airframe.
import { figure, money } from '@ductwright/contract/figures'
import type { Objectives, PurchaseLine, Relaxation, Result } from '@ductwright/contract/result'
import { buying, performance } from './sentences.js'

/** What the headline is made of. `best` is the first of the ranking; speeds in km/h. */
export interface HeadlineFacts {
  readonly outcome: Result['outcome']
  readonly target: number
  readonly best: { readonly raw: Objectives; readonly shopping: readonly PurchaseLine[] } | null
  readonly fastest: Objectives | null
  /** Whether some setup reaches the target with the reserve wanted. */
  readonly withReserve: boolean
  readonly airframe: string
  /** Of the limits other than speed. */
  readonly removedMost: { readonly words: string } | null
  readonly relaxations: readonly Relaxation[]
  /** Fan diameters that would do where the duct takes none of them, mm; null: a size is not what is missing. */
  readonly fanSize: number | null
  readonly currency: string
}

export function headlineOf(facts: HeadlineFacts): string {
  const { outcome, best, fastest, airframe, currency } = facts
  const wanted = figure('speed', facts.target)
  const hidden = facts.relaxations.find(({ relax, from, to }) => relax === 'target' && to >= from)
  if (hidden !== undefined) {
    return `Yes, just: ${wanted} is within reach of the ${airframe}, but speeds are rounded here, and cheaper setups just short of it are listed. One that reaches it does ${performance(hidden.raw, currency)}; buy ${buying(hidden.shopping)}.`
  }
  if (outcome !== 'reached' || best === null || fastest === null) return `${noWords(facts)} ${withinWords(facts)}`
  const does = performance(best.raw, currency)
  const buy = `buy ${buying(best.shopping)}`
  if (!facts.withReserve && best.raw.speed_km_h < facts.target) {
    return `Yes, but with less reserve than wanted: ${performance(fastest, currency)} is the fastest setup of the ${airframe}. The best all round does ${does}; ${buy}.`
  }
  return `Yes: ${wanted} is within reach of the ${airframe}. The best setup does ${does}; ${buy}.`
}

/** What stands in the way: an owner's limit first, since that is the owner's to move. */
function noWords(facts: HeadlineFacts): string {
  const { relaxations, fanSize, airframe, removedMost, currency } = facts
  const wanted = `${figure('speed', facts.target)} in the ${airframe}`
  const first = relaxations.find(({ relax }) => relax !== 'target')
  switch (first?.relax) {
    case 'budget':
      return `Not with this budget: ${wanted} takes ${money(first.to, currency)}, and ${money(first.from, currency)} are allowed.`
    case 'take-off-mass':
      return `Not with this take-off mass: ${wanted} takes ${figure('mass', first.to)}, and ${figure('mass', first.from)} are allowed.`
    case 'margin':
      return `Not with this reserve: ${wanted} leaves ${figure('exactPercent', first.to)} below the design load, and ${figure('exactPercent', first.from)} is to be kept.`
    case 'flight-time':
      return `Not with this flight time: ${wanted} leaves ${figure('seconds', first.to)}, and ${figure('seconds', first.from)} are to be flown.`
    case 'stall-speed':
      return `Not with this stall speed: ${wanted} takes ${figure('fineSpeed', first.to)}, and ${figure('fineSpeed', first.from)} is allowed.`
  }
  if (fanSize !== null) {
    return `Not with this fan size: ${wanted} takes a fan of ${figure('station', fanSize)}, which its duct does not take.`
  }
  if (first?.relax === 'drag-area') {
    return `Not with this airframe as it is: ${wanted} takes a drag area of ${figure('dragArea', first.to)}, and it has ${figure('dragArea', first.from)}.`
  }
  const most =
    removedMost === null ? '' : ` Besides too little speed, most setups were removed by: ${removedMost.words}.`
  return `Not with this airframe: no setup of this catalogue does ${wanted}.${most}`
}

function withinWords({ relaxations, fastest, currency }: HeadlineFacts): string {
  const reached = fastest ?? relaxations.find(({ relax }) => relax === 'target')?.raw ?? null
  if (reached === null) return 'No setup of this catalogue flies within the limits given.'
  return `Within the limits given the fastest setup does ${performance(reached, currency)}.`
}
