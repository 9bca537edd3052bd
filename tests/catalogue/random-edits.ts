// Random changes of a catalogue that leave it one: prices, dates, figures, names, rows added and taken out.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { type Entry, entryId, type ListName, listNames } from '@ductwright/catalogue/lists'
import fc from 'fast-check'

export type Edit = (catalogue: Catalogue) => Catalogue

/** The catalogue with one list replaced, under the version that belongs to it. */
export function withList<List extends ListName>(
  catalogue: Catalogue,
  list: List,
  rows: readonly Entry<List>[],
): Catalogue {
  const { version: _version, ...rest } = catalogue
  return sealCatalogue({ ...rest, [list]: rows })
}

/** The row at a place of a list changed; places count round the list. */
function atRow(catalogue: Catalogue, list: ListName, place: number, change: (entry: Entry) => Entry): Catalogue {
  const rows = catalogue[list] as readonly Entry[]
  if (rows.length === 0) return catalogue
  return withList(catalogue, list, rows.map((row, i) => (i === place % rows.length ? change(row) : row)) as never)
}

const place = fc.nat({ max: 200 })
const list = fc.constantFrom(...listNames)

const priceEdit = fc.tuple(list, place, fc.integer({ min: 0, max: 99_999 })).map(
  ([where, at, cents]): Edit =>
    (catalogue) =>
      atRow(catalogue, where, at, (row) => ({ ...row, price: cents / 100 })),
)

const dateEdit = fc.tuple(list, place, fc.integer({ min: 10, max: 28 })).map(
  ([where, at, day]): Edit =>
    (catalogue) =>
      atRow(catalogue, where, at, (row) => ({ ...row, priced: `2026-02-${day}` })),
)

const nameEdit = fc.tuple(list, place, fc.constantFrom('Other name', 'Tolk 50-6', 'Name with ½')).map(
  ([where, at, name]): Edit =>
    (catalogue) =>
      atRow(catalogue, where, at, (row) => ({ ...row, name })),
)

const massEdit = fc
  .tuple(fc.constantFrom('fans', 'motors', 'escs', 'packs'), place, fc.integer({ min: 50, max: 400 }))
  .map(
    ([where, at, grams]): Edit =>
      (catalogue) =>
        atRow(
          catalogue,
          where,
          at,
          (row) => ({ ...row, part: { ...(row as Catalogue['fans'][number]).part, mass: grams / 1000 } }) as Entry,
        ),
  )

const added = fc
  .tuple(fc.constantFrom('fans', 'motors', 'escs', 'packs', 'airframes'), place, fc.integer({ min: 0, max: 5 }))
  .map(
    ([where, at, number]): Edit =>
      (catalogue) => {
        const rows = catalogue[where] as Catalogue['fans']
        const model = rows[at % rows.length]!
        const id = `${where}-added-${number}`
        if (rows.some((row) => entryId(row) === id)) return catalogue
        return withList(catalogue, where, [...rows, { ...model, part: { ...model.part, id } }] as never)
      },
  )

/** Speed controllers and packs only: a set may need a fan or a motor. */
const removed = fc.tuple(fc.constantFrom('escs', 'packs', 'sets'), place).map(
  ([where, at]): Edit =>
    (catalogue) => {
      const rows = catalogue[where] as readonly Entry[]
      if (rows.length < 2) return catalogue
      return withList(catalogue, where, rows.filter((_, i) => i !== at % rows.length) as never)
    },
)

const headEdit = fc.constantFrom('2026-03-14', '2026-06-01').map(
  (dated): Edit =>
    (catalogue) => {
      const { version: _version, ...rest } = catalogue
      return sealCatalogue({ ...rest, dated })
    },
)

/** Up to a dozen changes, one after another. */
export const edits: fc.Arbitrary<Edit> = fc
  .array(fc.oneof(priceEdit, dateEdit, nameEdit, massEdit, added, removed, headEdit), { minLength: 1, maxLength: 12 })
  .map(
    (all): Edit =>
      (catalogue) =>
        all.reduce((edited, edit) => edit(edited), catalogue),
  )
