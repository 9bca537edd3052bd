// What beats a setup, or what it gives up, in a sentence; the same in the page's table, its form and on the command line.
import { figure, money } from '@ductwright/contract/figures'
import type { Objectives } from '@ductwright/contract/result'
import { capital } from '../capital.js'
import type { WhyNot } from './why-not.js'

/** A verdict in one or two sentences. */
export function whyNotWords({ verdict, rank, ahead }: WhyNot, currency: string): string {
  const number = `number\u00a0${figure('count', rank)}`
  if (verdict === 'unbeaten') {
    return `Nothing in the list beats it in everything. Against ${number} it is ${tradeWords(negated(ahead), currency)}.`
  }
  const better = differences(ahead, currency, 'better')
  const worse = differences(negated(ahead), currency, 'better')
  const more =
    worse.length === 0
      ? ''
      : ` That it is ${listed(worse)} than that does not count: it is within the rounding or beyond what is wanted.`
  if (verdict === 'equalled') return `${capital(number)} equals it in everything that counts.${trade(better)}${more}`
  return `Beaten by ${number}, which is no worse in anything that counts and ${listed(better)}.${more}`
}

function trade(better: readonly string[]): string {
  return better.length === 0 ? '' : ` As worked out it is ${listed(better)}.`
}

/** How a setup stands against another: "15 km/h slower and 3 % of the design load less safe, but 440 EUR cheaper". */
export function tradeWords(ahead: Objectives, currency: string): string {
  const better = differences(ahead, currency, 'better')
  const worse = differences(ahead, currency, 'worse')
  if (better.length === 0 && worse.length === 0) return 'the same in every figure shown'
  if (better.length === 0) return listed(worse)
  return worse.length === 0 ? listed(better) : `${listed(worse)}, but ${listed(better)}`
}

/** What differs by more than shows, as words; only what is better, or only what is worse. */
function differences(ahead: Objectives, currency: string, side: 'better' | 'worse'): string[] {
  const sign = side === 'better' ? 1 : -1
  const word = (better: string, worse: string) => (side === 'better' ? better : worse)
  const speed = sign * ahead.speed_km_h
  const time = sign * ahead.flight_time_s
  const cost = Math.round(sign * ahead.cost)
  const margin = sign * ahead.margin * 100
  return [
    ...(Math.round(speed) >= 1 ? [`${figure('speed', speed)} ${word('faster', 'slower')}`] : []),
    ...(Math.round(time) >= 1 ? [`${figure('seconds', time)} ${word('longer', 'shorter')} in the air`] : []),
    ...(cost >= 1 ? [`${money(cost, currency)} ${word('cheaper', 'dearer')}`] : []),
    ...(Math.round(margin) >= 1
      ? [`${figure('percent', margin)} of the design load ${word('safer', 'less safe')}`]
      : []),
  ]
}

function negated({ speed_km_h, flight_time_s, cost, margin }: Objectives): Objectives {
  return { speed_km_h: -speed_km_h, flight_time_s: -flight_time_s, cost: -cost, margin: -margin }
}

/** "a, b and c" */
function listed(items: readonly string[]): string {
  return items.length < 2
    ? (items[0] ?? 'the same in every figure shown')
    : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
}
