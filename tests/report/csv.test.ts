// The front as a spreadsheet file.

import { fileNumber } from '@ductwright/contract/figures'
import { renderCsv, unformulated } from '@ductwright/report/csv'
import { parse } from 'csv-parse/sync'
import { describe, expect, it } from 'vitest'
import { answer, hostileNames } from './fixture.js'

const read = (csv: string) => parse(csv, { columns: true }) as Record<string, string>[]

describe('front as CSV', () => {
  it('has one row a setup, all of the same width, in rank order', () => {
    const result = answer({ members: 700 })
    const rows = read(renderCsv({ ...result, front: [...result.front].reverse() }))
    expect(rows.map((row) => Number(row['rank']))).toEqual(result.front.map((member) => member.rank))
    expect(rows[699]!['fan_id']).toBe(result.front[699]!.setup.fan)
  })

  it('says the same numbers as the letter, with the unit in the head', () => {
    const result = answer()
    const row = read(renderCsv(result))[0]!
    expect(row['speed_km_h']).toBe('362')
    expect(row['flight_time_s']).toBe(fileNumber('seconds', result.front[0]!.raw.flight_time_s))
    expect(row['cost_eur']).toBe('771.35')
    expect(row['below_design_load_percent']).toBe('25')
    expect(row['nozzle_exit_mm']).toBe('78.5')
    expect(row['throttle_cap_percent']).toBe('92')
    expect(row['pack_c']).toBe('48')
    expect(row['speed_dive_km_h']).toBe('377')
    expect(row['speed_fastest_km_h']).toBe('379')
    expect(row['speed_allowed_km_h']).toBe('432')
    expect(row['speed_allowed_by']).toBe('wing-flutter')
    expect(row['stall_flaps_km_h']).toBe('55')
  })

  it('tells what was compared, the scores, the shopping, what holds the speed back and what a setup is named for', () => {
    const result = answer()
    const [first, second] = read(renderCsv(result))
    expect(first).toMatchObject({
      purchase: '1',
      compared_speed_km_h: '362',
      compared_flight_time_s: '270',
      compared_cost_eur: '770',
      compared_below_design_load_percent: '25',
      desirability_of_cost: '0.550',
      own_expression: '',
      to_buy: 'Merle 90 / 12 blades\u00a0· Halden 3674 1450\u00a0· Lindo 160',
      at_hand: '2\u00a0×\u00a0Brisk 6S 5000',
      clean_up_work: 'Seal the hinge gaps with film',
      held_back_by: 'current',
      named_for: 'Best all round, Best for the money',
    })
    expect(second?.['named_for']).toBe('Safest')
  })

  it('leaves the allowed speed empty where nothing is known of the structure', () => {
    const result = answer()
    const first = result.front[0]!
    const figures = { ...first.figures, speed_allowed_km_h: null, speed_allowed_by: null }
    const row = read(renderCsv({ ...result, front: [{ ...first, figures }] }))[0]!
    expect(row['speed_allowed_km_h']).toBe('')
    expect(row['speed_allowed_by']).toBe('')
  })

  it('starts no cell with what a spreadsheet would run, except real numbers', () => {
    const result = answer({ hostile: true, members: 60 })
    const first = result.front[0]!
    const front = [{ ...first, raw: { ...first.raw, margin: -0.031 } }, ...result.front.slice(1)]
    const rows = read(renderCsv({ ...result, front }))
    for (const cell of rows.flatMap((row) => Object.values(row))) {
      if (!/^-?\d+(\.\d+)?$/.test(cell)) expect(cell).not.toMatch(/^\s*[=+\-@\t\r\n]/)
    }
    // Rounded to the side of caution, as in the letter: 3.1 % above the design load reads 4 %.
    expect(rows[0]!['below_design_load_percent']).toBe('-4')
  })

  it.each(['=1+1', '+1', '-1+2', '@x', '\t=1', '\r=1', ' =1', '-5'])('neutralises the text %j', (text) => {
    expect(unformulated(text)).toMatch(/^'/)
  })

  it('keeps hostile names readable and on their row', () => {
    const rows = read(renderCsv(answer({ hostile: true, members: 60 })))
    expect(rows.length).toBe(60)
    expect(rows.some((row) => row['fan']!.startsWith(hostileNames[0]))).toBe(true)
  })

  it('ends lines the way RFC 4180 does', () => {
    const csv = renderCsv(answer({ hostile: true }))
    expect(csv.endsWith('\r\n')).toBe(true)
    expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
  })

  it('has only its head when nothing is left', () => {
    expect(
      renderCsv(answer({ outcome: 'none' }))
        .trim()
        .split('\r\n').length,
    ).toBe(1)
  })
})
