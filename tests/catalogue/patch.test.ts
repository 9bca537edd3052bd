// Changes of single rows: what they do, that their order says nothing, and that a faulty one changes nothing and names every
// fault with a pointer to where it stands.
import { fanCells } from '@ductwright/catalogue/cells/fan-cells'
import { motorCells } from '@ductwright/catalogue/cells/motor-cells'
import { diffCatalogues } from '@ductwright/catalogue/diff/catalogue-diff'
import { diffWords } from '@ductwright/catalogue/diff/diff-words'
import { patchedCatalogue } from '@ductwright/catalogue/patch/read-patch'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { demoFiles, faultsIn, rowsOf, withCell } from './edit-tables.js'

const demo = readCatalogue(demoFiles)
const [fan, otherFan] = [demo.fans[0]!, demo.fans[1]!]
const motor = demo.motors.find(({ part }) => demo.sets.every(({ motorId }) => motorId !== part.id))!
const pack = demo.packs[0]!

/** A row of a table as JSON, as its owner has it. */
function rowOf(file: string, line: number): Record<string, string> {
  const rows = rowsOf(demoFiles, file)
  return Object.fromEntries(rows[0]!.map((column, i) => [column, rows[line - 1]![i]!]))
}

const faultsOf = (patch: unknown) => faultsIn(() => patchedCatalogue(demo, patch))

const changes = (patch: unknown): string[] => diffWords(diffCatalogues(demo, patchedCatalogue(demo, patch)), 'EUR')

describe('a patch', () => {
  it('of nothing changes nothing', () => {
    for (const patch of [{}, { rows: {}, prices: {}, remove: [] }, { rows: { fans: [] } }, { catalogue: {} }])
      expect(patchedCatalogue(demo, patch).version).toBe(demo.version)
  })

  it('puts a row in the place of the one with its id, as the same cell in the table would', () => {
    const row = { ...rowOf('packs.csv', 3), mass_g: 600 }
    const patched = patchedCatalogue(demo, { rows: { packs: [row] } })
    expect(patched).toEqual(readCatalogue(withCell(demoFiles, 'packs.csv', 3, 'mass_g', '600')))
  })

  it('adds a row, changes a price, dates it, and takes a row out', () => {
    const added = { ...motorCells(motor), id: 'motor-added', name: 'Added', priced: undefined }
    const patch = {
      rows: { motors: [added] },
      prices: { [fan.part.id]: fan.price + 3, [otherFan.part.id]: { price: otherFan.price, priced: '2026-04-02' } },
      remove: [motor.part.id],
      catalogue: { dated: '2026-04-03' },
    }
    expect(changes(patch)).toEqual([
      'the catalogue: date of the prices 2026-03-14 → 2026-04-03',
      expect.stringMatching(/^new: Added, motor by /),
      expect.stringMatching(new RegExp(`^gone: ${motor.name}, `)),
      expect.stringMatching(new RegExp(`^${fan.name} is 3 EUR dearer`)),
      `${otherFan.name} changed: date of the price that of the catalogue → 2026-04-02`,
    ])
  })

  it('keeps the date of a price unless it says otherwise, and takes it away with null', () => {
    const { id } = pack.part
    const dated = patchedCatalogue(demo, { prices: { [id]: { price: 1, priced: '2026-04-02' } } })
    const of = (patch: unknown) => patchedCatalogue(dated, patch).packs.find(({ part }) => part.id === id)
    expect(of({ prices: { [id]: 2 } })).toMatchObject({ price: 2, priced: '2026-04-02' })
    expect(of({ prices: { [id]: { price: 2, priced: null } } })).not.toHaveProperty('priced')
  })

  it('takes an airframe with its structure and drag inside', () => {
    const { airframe_id: _id, ...structure } = rowOf('airframe-structure.csv', 3)
    const { airframe_id: _other, ...drag } = rowOf('airframe-drag.csv', 3)
    const rows = rowsOf(demoFiles, 'airframes.csv')
    const line = rows.findIndex((row) => row[0] === 'airframe-jorrel-90') + 1
    const row = { ...rowOf('airframes.csv', line), structure, drag: { ...drag, roughness: 1.2 } }
    expect(changes({ rows: { airframes: [row] } })).toEqual([expect.stringMatching(/roughness \(drag\) 1\.18 → 1\.2$/)])
  })

  it('leaves the catalogue it is laid over as it was', () => {
    const before = JSON.stringify(demo)
    patchedCatalogue(demo, { prices: { [fan.part.id]: 1 }, remove: [motor.part.id] })
    expect(JSON.stringify(demo)).toBe(before)
  })
})

describe('the order', () => {
  const prices = fc.uniqueArray(fc.nat({ max: demo.packs.length - 1 }), { minLength: 1, maxLength: 6 })

  it('of rows, prices and removals in a patch says nothing', () => {
    fc.assert(
      fc.property(prices, fc.boolean(), (places, turn) => {
        const rows = places.map((i) => ({ ...rowOf('packs.csv', i + 2), price: 10 + i }))
        const ids = demo.escs.slice(0, places.length).map(({ part }) => part.id)
        const gone = demo.motors.filter(({ part }) => demo.sets.every(({ motorId }) => motorId !== part.id)).slice(0, 3)
        const removed = gone.map(({ part }) => part.id)
        const patch = { rows: { packs: rows }, prices: Object.fromEntries(ids.map((id) => [id, 7])), remove: removed }
        const turned = {
          remove: removed.toReversed(),
          prices: Object.fromEntries(ids.toReversed().map((id) => [id, 7])),
          rows: { packs: rows.toReversed() },
        }
        expect(patchedCatalogue(demo, turn ? turned : patch)).toEqual(patchedCatalogue(demo, patch))
      }),
      { numRuns: 20 },
    )
  })

  it('of patches that touch different rows says nothing', () => {
    fc.assert(
      fc.property(prices, prices, (first, second) => {
        const one = { prices: Object.fromEntries(first.map((i) => [demo.packs[i]!.part.id, 3])) }
        const others = second.filter((i) => !first.includes(i))
        const other = { rows: { packs: others.map((i) => ({ ...rowOf('packs.csv', i + 2), id: `pack-new-${i}` })) } }
        expect(patchedCatalogue(patchedCatalogue(demo, one), other)).toEqual(
          patchedCatalogue(patchedCatalogue(demo, other), one),
        )
      }),
      { numRuns: 20 },
    )
  })
})

describe('a fault', () => {
  const good = rowOf('packs.csv', 3)
  const set = demo.sets[0]!

  it.each<readonly [string, unknown, string, string]>([
    [
      'a cell out of range',
      { rows: { packs: [good, { ...good, id: 'p', mass_g: 0 }] } },
      '/rows/packs/1/mass_g',
      'range',
    ],
    ['a number with its unit', { rows: { packs: [{ ...good, mass_g: '1 kg' }] } }, '/rows/packs/0/mass_g', 'unit'],
    ['a decimal comma', { rows: { packs: [{ ...good, mass_g: '600,5' }] } }, '/rows/packs/0/mass_g', 'decimal-sign'],
    ['a formula', { rows: { packs: [{ ...good, name: '=1' }] } }, '/rows/packs/0/name', 'formula'],
    ['a column of no table', { rows: { packs: [{ ...good, weight: 1 }] } }, '/rows/packs/0/weight', 'unknown-column'],
    ['a missing column', { rows: { packs: [{ ...good, mass_g: undefined }] } }, '/rows/packs/0/mass_g', 'required'],
    ['another currency', { rows: { packs: [{ ...good, currency: 'USD' }] } }, '/rows/packs/0/currency', 'currency'],
    ['a row that is a list', { rows: { packs: [[]] } }, '/rows/packs/0', 'type'],
    ['a table nobody has', { rows: { props: [] } }, '/rows/props', 'unknown-table'],
    ['rows that are no list', { rows: { packs: {} } }, '/rows/packs', 'type'],
    ['an id twice', { rows: { packs: [good, good] } }, '/rows/packs/1', 'duplicate-id'],
    [
      'a row and its price',
      { rows: { packs: [good] }, prices: { [good['id']!]: 1 } },
      `/prices/${good['id']}`,
      'duplicate-id',
    ],
    ['an id of another table', { rows: { packs: [{ ...good, id: fan.part.id }] } }, '/rows/packs/0/id', 'duplicate-id'],
    ['a price of nothing known', { prices: { nobody: 1 } }, '/prices/nobody', 'unknown-part'],
    ['a price below nothing', { prices: { [good['id']!]: -1 } }, `/prices/${good['id']}`, 'range'],
    [
      'a price without its number',
      { prices: { [good['id']!]: { priced: null } } },
      `/prices/${good['id']}/price`,
      'number',
    ],
    [
      'a day that is none',
      { prices: { [good['id']!]: { price: 1, priced: '2026-02-30' } } },
      `/prices/${good['id']}/priced`,
      'format',
    ],
    ['removing what is not there', { remove: ['nobody'] }, '/remove/0', 'unknown-part'],
    ['removing what a set needs', { remove: [motor.part.id, set.motorId] }, '/remove/1', 'unknown-part'],
    ['removing every airframe', { remove: demo.airframes.map(({ part }) => part.id) }, '', 'empty-table'],
    [
      'a fan no rotor behaves like',
      { rows: { fans: [{ ...rowOf('fans.csv', 2), pressure_rise_slope: 0.3 }] } },
      '/rows/fans/0/pressure_rise_slope',
      'fan-gate',
    ],
    [
      'a fan its set no longer fits',
      {
        rows: {
          fans: [
            { ...fanCells(demo.fans.find(({ part }) => part.id === set.fanId)!), priced: undefined, shaft_bore_mm: 9 },
          ],
        },
      },
      '/rows/fans/0',
      'set-fit',
    ],
    ['another currency for all', { catalogue: { currency: 'USD' } }, '/catalogue/currency', 'currency'],
    ['a catalogue without a date', { catalogue: { dated: 'today' } }, '/catalogue/dated', 'format'],
    ['a column the catalogue has not', { catalogue: { owner: 'x' } }, '/catalogue/owner', 'unknown-column'],
    ['a section nobody knows', { delete: [] }, '/delete', 'unknown-field'],
    [
      'an airframe without a price',
      {
        rows: {
          airframes: [{ ...rowOf('airframes.csv', 2), price: undefined, oswald_factor: 0.8 }].map(
            ({ price: _price, ...row }) => row,
          ),
        },
      },
      '/rows/airframes/0/price',
      'required',
    ],
    ['a list', [], '', 'type'],
  ])('%s is named where it stands', (_what, patch, pointer, rule) => {
    const faults = faultsOf(patch)
    expect(faults.map((fault) => [fault.pointer, fault.rule])).toContainEqual([pointer, rule])
    for (const { message, file } of faults) expect(`${file} ${message}`).toMatch(/^[a-z-]+\.csv .{10,}/)
  })

  it('does not hide another', () => {
    const patch = { rows: { packs: [{ ...good, mass_g: 0 }] }, prices: { nobody: 'x' }, remove: ['nothing'], more: 1 }
    expect(
      faultsOf(patch)
        .map(({ pointer }) => pointer)
        .toSorted(),
    ).toEqual(['/more', '/prices/nobody', '/remove/0', '/rows/packs/0/mass_g'].toSorted())
  })
})
