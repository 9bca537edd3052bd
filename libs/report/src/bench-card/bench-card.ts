// One pick as a card for the workshop wall, a page long: parts, settings, what the meters should read, when to close the
// throttle, how to fly it, cautions. A letter like the answer's own, so that text and page lay out the same strings.
import { belowDesign, duration, figure, money } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Pick, Result } from '@ductwright/contract/result'
import type { Letter, Section } from '../letter.js'
import { pickedFor } from '../pick-names.js'
import { ranked } from '../section-opening.js'
import { partsLine } from '../setup-words.js'
import { shoppingGrid } from '../shopping.js'
import { cautionsSection } from './bench-cautions.js'
import { readingsSection } from './bench-readings.js'
import { settingsSection } from './bench-settings.js'
import { flightSection } from './flight-card.js'
import { stopSection } from './stop-table.js'

/** @throws RangeError when the pick is not of this list */
export function benchCard(result: Result, pick: Pick): Letter {
  const member = ranked(result, pick.rank)
  if (member === undefined) throw new RangeError(`the pick must be of the list, got number ${pick.rank}`)
  const { figures } = member
  const { study } = pick
  return {
    title: inert(result.understood.title, 120),
    headline: `Bench card: number ${figure('count', pick.rank)}, ${pickedFor(result, pick.rank)}`,
    sections: [
      subject(member, result),
      partsSection(member, result),
      settingsSection(member, pick),
      readingsSection(figures, study),
      stopSection(figures, study, result.air),
      flightSection(figures, study, result),
      cautionsSection(result.cautions),
    ],
    footer: [
      `Answer ${inert(result.answer_hash, 80)}. Estimates, not a clearance to fly. Models ${inert(result.model_version, 40)}.`,
    ],
  }
}

function subject({ setup, raw }: Member, { airframe, names: known, catalogue }: Result): Section {
  const does = [
    figure('speed', raw.speed_km_h),
    duration(raw.flight_time_s),
    belowDesign(raw.margin),
    `${money(raw.cost, catalogue.currency)} to pay`,
  ]
  const text = `${inert(airframe.name, 80)}: ${partsLine(setup, known)}. ${does.join(', ')}.`
  return { heading: '', blocks: [{ kind: 'paragraph', text }] }
}

/** What is needed, at hand and to be bought; what it costs stands in the answer. */
function partsSection({ shopping }: Member, { catalogue }: Result): Section {
  const priced = shoppingGrid(shopping, catalogue.currency)
  if (priced.kind !== 'grid') return { heading: 'Parts', blocks: [priced] }
  const columns = priced.columns.slice(0, 3)
  const rows = priced.rows.map((row) => row.slice(0, 3))
  return { heading: 'Parts', blocks: [{ kind: 'grid', columns, rows }] }
}
