// One formatted source: what the mail says in numbers, the page, the list on a terminal, the CSV and the JSON say too.
import { amountOf, bare, bareSpeed, clock, fileAmount, fileNumber, reserve } from '@ductwright/contract/figures'
import type { Member, Result } from '@ductwright/contract/result'
import { renderCsv } from '@ductwright/report/csv'
import { renderMail } from '@ductwright/report/mail'
import { renderReportPage } from '@ductwright/report/page/report-page'
import { renderTable } from '@ductwright/report/table'
import { renderText } from '@ductwright/report/text'
import { parse } from 'csv-parse/sync'
import { beforeAll, describe, expect, it } from 'vitest'
import { answer } from './fixture.js'
import { receipt } from './fixture-receipt.js'
import { numbers, seen } from './read-mail.js'

const plain = (text: string) => text.replaceAll('\u00a0', ' ')

describe.each(['reached', 'short', 'none'] as const)('an answer that is %s', (outcome) => {
  // As it comes off the wire.
  const result = JSON.parse(JSON.stringify(answer({ outcome, members: 40 }))) as Result
  let mail: string
  let page: string
  let rows: Record<string, string>[]

  beforeAll(async () => {
    mail = (await renderMail(result, receipt())).text
    page = seen(await renderReportPage(result, receipt()))
    rows = parse(renderCsv(result), { columns: true })
  })

  it('has every number of the mail on the page', () => {
    const told = new Set(numbers(page))
    const missing = [...new Set(numbers(mail))].filter((number) => !told.has(number))
    expect(missing).toEqual([])
  })

  it('has every number of the terminal in the mail, which tells the charts as well', () => {
    const told = new Set(numbers(mail))
    expect(
      numbers(renderText(result, { width: 100, receipt: receipt() })).filter((number) => !told.has(number)),
    ).toEqual([])
    expect(numbers(renderTable(result)).filter((number) => !told.has(number))).toEqual([])
  })

  it('has a row a setup in the file, with the numbers of the answer as the letter writes them', () => {
    expect(rows).toHaveLength(result.front.length)
    for (const [at, member] of result.front.entries()) expect(rows[at]).toMatchObject(written(member))
  })

  it('has the rows of the list on the page and on the terminal as they stand in the file', () => {
    const list = plain(renderTable(result))
    for (const line of list.split('\n').filter((text) => /^ {0,3}\d+ {2}/.test(text))) {
      const [rank, speed, , time, cost, margin] = line.trim().split(/ {2,}/)
      const row = rows.find((one) => one['rank'] === rank)!
      expect([row['speed_km_h'], row['below_design_load_percent']]).toEqual([speed, margin?.replace(' %', '')])
      expect(cost?.replaceAll(',', '')).toBe(row['cost_eur'])
      expect(clock(Number(row['flight_time_s']))).toBe(time)
    }
    for (const member of result.front) {
      const { raw } = member
      for (const shown of [bare('speed', raw.speed_km_h), clock(raw.flight_time_s), amountOf(raw.cost)]) {
        expect(page).toContain(shown)
      }
    }
  })
})

/** Cells of the file for one setup, from the numbers of the answer. */
function written({ rank, purchase, raw, figures, setup }: Member): Record<string, string> {
  return {
    rank: String(rank),
    purchase: String(purchase),
    speed_km_h: bareSpeed(raw.speed_km_h, 360),
    flight_time_s: fileNumber('seconds', raw.flight_time_s),
    cost_eur: fileAmount(raw.cost),
    below_design_load_percent: plain(reserve(raw.margin)).replace(' %', '').replace('−', '-'),
    standing_current_a: fileNumber('current', figures.standing.pack_current_a),
    nozzle_exit_mm: fileNumber('diameter', figures.nozzle_exit_mm),
    throttle_cap_percent: fileNumber('percent', setup.duty * 100),
  }
}
