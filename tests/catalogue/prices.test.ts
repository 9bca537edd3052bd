// Prices have a currency and a date, their own or the catalogue's; old ones are said to be old on the day one asks about.
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { priceWarnings, stalePrices } from '@ductwright/catalogue/stale-prices'
import { describe, expect, it } from 'vitest'
import { demoFiles, type Files, faultsOf, rowsOf, withCell, withRows } from './edit-tables.js'

const demo = readCatalogue(demoFiles)

/** The tables with a column for the date of each price; `dates`: by line, the others empty. */
function dated(files: Files, file: string, dates: Readonly<Record<number, string>>): Files {
  const [header, ...rows] = rowsOf(files, file)
  return withRows(files, file, [[...header!, 'priced'], ...rows.map((row, i) => [...row, dates[i + 2] ?? ''])])
}

describe('the date of a price', () => {
  it('stands in the row, and left empty the catalogue is the same as without the column', () => {
    const files = dated(demoFiles, 'packs.csv', { 3: '2026-02-01' })
    const id = rowsOf(demoFiles, 'packs.csv')[2]![0]
    const packs = readCatalogue(files).packs
    expect(packs.filter(({ priced }) => priced !== undefined).map(({ part, priced }) => [part.id, priced])).toEqual([
      [id, '2026-02-01'],
    ])
    for (const file of [
      'fans.csv',
      'motors.csv',
      'escs.csv',
      'packs.csv',
      'airframes.csv',
      'sets.csv',
      'treatments.csv',
    ])
      expect(readCatalogue(dated(demoFiles, file, {})).version).toBe(demo.version)
  })

  it('must be a day', () => {
    const files = dated(demoFiles, 'sets.csv', { 2: '2026-13-01' })
    expect(faultsOf(files)).toEqual([
      expect.objectContaining({ file: 'sets.csv', line: 2, column: 'priced', rule: 'format', value: '"2026-13-01"' }),
    ])
  })

  it('does not move with the date of the catalogue', () => {
    const files = dated(demoFiles, 'packs.csv', { 3: '2026-02-01' })
    const later = readCatalogue(withCell(files, 'catalogue.csv', 2, 'dated', '2026-09-01'))
    expect(later.packs.find(({ priced }) => priced !== undefined)?.priced).toBe('2026-02-01')
  })
})

describe('old prices', () => {
  const files = dated(dated(demoFiles, 'packs.csv', { 3: '2025-01-10', 4: '2026-03-01' }), 'fans.csv', {
    2: '2025-06-01',
  })
  const catalogue = readCatalogue(files)
  const [pack, fan] = [rowsOf(files, 'packs.csv')[2]!, rowsOf(files, 'fans.csv')[1]!]

  it('are counted from the day given, the oldest first', () => {
    const found = stalePrices(catalogue, { day: '2026-03-14', days: 180 })
    expect(found.map(({ id, priced, ageDays }) => [id, priced, ageDays])).toEqual([
      [pack[0], '2025-01-10', 428],
      [fan[0], '2025-06-01', 286],
    ])
  })

  it('are old the day after the number of days, not on it', () => {
    expect(stalePrices(demo, { day: '2026-03-24', days: 10 })).toEqual([])
    expect(stalePrices(demo, { day: '2026-03-25', days: 10 }).length).toBeGreaterThan(100)
    expect(stalePrices(demo, { day: '2026-01-01', days: 0 })).toEqual([])
  })

  it('are told in a sentence, and none is told of young ones', () => {
    expect(priceWarnings(demo, { day: '2026-03-14', days: 180 })).toEqual([])
    const [words] = priceWarnings(catalogue, { day: '2026-03-14', days: 180 })
    expect(words).toMatch(
      /^2 of \d+ prices are more than 180 days old on 2026-03-14: .+ of 2025-01-10, .+ of 2025-06-01\. /,
    )
    expect(words).toContain(pack[2])
    expect(priceWarnings(demo, { day: '2027-01-01', days: 180 })[0]).toMatch(
      /^All \d+ prices are more than 180 days old on 2027-01-01: of 2026-03-14\. /,
    )
  })

  it.each([
    ['a day that is none', { day: '2026-02-31x', days: 1 }],
    ['less than no days', { day: '2026-03-14', days: -1 }],
    ['no number of days', { day: '2026-03-14', days: Number.NaN }],
  ])('%s is refused', (_what, age) => {
    expect(() => stalePrices(demo, age)).toThrow(RangeError)
  })
})
