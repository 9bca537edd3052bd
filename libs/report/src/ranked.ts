// The ranked list with one line a purchase: the best-ranked setup stands for all settings of the same parts, which are
// told below it together with what the purchase is named for.

import { amountOf, bare, bareSpeed, clock, figure, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import { targetSpeed } from './charts/named-members.js'
import type { Block, GridColumn, RankedRow } from './letter.js'
import { kneeName, pickNames } from './pick-names.js'
import { partsLine, settingsLine } from './setup-words.js'
import { type Purchase, shownPurchases } from './shown-purchases.js'

function headings(result: Result): GridColumn[] {
  const titles = [
    'rank',
    'km/h',
    'as asked',
    'min',
    inert(result.catalogue.currency, 8),
    'below design load',
    'free to nearest limit',
  ]
  return titles.map((title) => ({ title, align: 'right' }))
}

function row(purchase: Purchase, result: Result): RankedRow {
  const { best } = purchase
  const { raw } = best
  const names = namedFor(purchase, result)
  const below = [
    ...(names === '' ? [] : [names]),
    `${partsLine(best.setup, result.names)} — ${settingsLine(best.setup, best.figures)}`,
    ...otherSettings(purchase),
  ]
  const cells = [
    bare('count', best.rank),
    bareSpeed(raw.speed_km_h, targetSpeed(result)),
    best.score.reaches ? 'yes' : 'no',
  ]
  return {
    cells: [
      ...cells,
      clock(raw.flight_time_s),
      amountOf(raw.cost),
      reserve(raw.margin),
      reserve(best.figures.headroom),
    ],
    below: below.join('. '),
  }
}

/** The picks among the settings of a purchase, and the one after which more buys little. */
function namedFor({ settings }: Purchase, { picks, knee }: Result): string {
  const holds = (rank: number) => settings.some((member) => member.rank === rank)
  const picked = picks.filter(({ rank }) => holds(rank)).map(({ pick }) => pickNames[pick])
  const bend = knee !== null && holds(knee.rank) ? [kneeName] : []
  const [first, ...rest] = [...picked, ...bend]
  return first === undefined ? '' : [first, ...rest.map((name) => name.toLowerCase())].join(', ')
}

/** The other settings of the same parts, by the speeds they span. */
function otherSettings({ best, settings }: Purchase): string[] {
  const others = settings.filter((member) => member !== best).map(({ raw }) => raw.speed_km_h)
  if (others.length === 0) return []
  const [low, high] = [Math.min(...others), Math.max(...others)]
  const speeds = bare('speed', low) === bare('speed', high) ? '' : `${bare('speed', low)} to `
  const named = others.length === 1 ? 'other setting' : 'other settings'
  return [`${figure('count', others.length)} ${named} of these parts: ${speeds}${figure('speed', high)}`]
}

export function rankedBlock(result: Result): Block {
  return {
    kind: 'ranked',
    columns: headings(result),
    rows: shownPurchases(result).map((purchase) => row(purchase, result)),
  }
}

/** How much of the whole the list shows. */
export function rankedFooter(result: Result): string {
  const shown = shownPurchases(result).length
  const { purchases, front } = result.counts
  return `${bare('count', shown)} of ${bare('count', purchases)} purchases, ${bare('count', front)} setups; all in the file.`
}
