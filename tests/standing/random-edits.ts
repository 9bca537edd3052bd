// A catalogue of a few parts and edits of it as a shop makes them: prices that move a little or a lot, parts that come back
// or go, twins that are worse or better, data that is corrected, rows in another order.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import type { RandomStream } from '@ductwright/catalogue/generate/random'

type Loose = Omit<Catalogue, 'version'>
const LISTS = ['fans', 'motors', 'escs', 'packs'] as const
type ListName = (typeof LISTS)[number]
type Row = {
  readonly part: { readonly id: string; readonly mass: number }
  readonly price: number
  readonly name: string
}

export function tinyCatalogue(seed: number): Catalogue {
  const { version: _version, ...made } = generateCatalogue({
    seed,
    fans: 2,
    motors: 3,
    escs: 2,
    packs: 3,
    airframes: 1,
  })
  return sealCatalogue({ ...made, sets: [] })
}

export function edited(catalogue: Catalogue, whole: Catalogue, random: RandomStream): Catalogue {
  const { version: _version, ...loose } = catalogue
  return sealCatalogue(random.pick(EDITS)(loose, whole, random))
}

type Edit = (catalogue: Loose, whole: Catalogue, random: RandomStream) => Loose

const cents = (price: number): number => Math.max(1, Math.round(price * 100) / 100)

const EDITS: readonly Edit[] = [
  priced((price, random) => cents(price + random.between(-3, 3))),
  priced((price, random) => cents(price + random.between(-3, 3))),
  priced((price, random) => cents(price * random.between(0.6, 1.6))),
  priced((price) => price),
  (catalogue, _whole, random) =>
    onOne(catalogue, random, (row) => ({ ...row, part: { ...row.part, mass: random.around(row.part.mass, 0.2) } })),
  (catalogue, _whole, random) => onOne(catalogue, random, (row) => ({ ...row, name: `Name ${random.whole(1, 3)}` })),
  twin((row, random) => ({
    ...row,
    price: cents(row.price + random.between(20, 200)),
    part: { ...row.part, mass: row.part.mass * 1.1 },
  })),
  twin((row, random) => ({
    ...row,
    price: cents(row.price - random.between(0, 20)),
    part: { ...row.part, mass: row.part.mass * 0.95 },
  })),
  (catalogue, _whole, random) => {
    const list = random.pick(LISTS)
    const rows = rowsOf(catalogue, list)
    const gone = random.pick(rows)
    const left = rows.filter((row) => row !== gone)
    return left.length === 0 ? catalogue : withRows(catalogue, list, left)
  },
  (catalogue, whole, random) => {
    const list = random.pick(LISTS)
    const had = new Set(rowsOf(catalogue, list).map(({ part }) => part.id))
    const back = rowsOf(whole, list).filter(({ part }) => !had.has(part.id))
    return back.length === 0 ? catalogue : withRows(catalogue, list, [...rowsOf(catalogue, list), random.pick(back)])
  },
  (catalogue, whole, random) => {
    const list = random.pick(LISTS)
    return withRows(catalogue, list, rowsOf(whole, list))
  },
  (catalogue, _whole, random) => {
    const list = random.pick(LISTS)
    return withRows(catalogue, list, rowsOf(catalogue, list).toReversed())
  },
  (catalogue, _whole, random) => ({ ...catalogue, name: `Edition ${random.whole(1, 3)}` }),
]

function priced(price: (was: number, random: RandomStream) => number): Edit {
  return (catalogue, _whole, random) => onOne(catalogue, random, (row) => ({ ...row, price: price(row.price, random) }))
}

/** A second part like one there is; at most one a part, or the catalogue would grow without end. */
function twin(of: (row: Row, random: RandomStream) => Row): Edit {
  return (catalogue, _whole, random) => {
    const list = random.pick(LISTS)
    const rows = rowsOf(catalogue, list)
    const row = random.pick(rows)
    const id = `${row.part.id.replace(/-twin$/, '')}-twin`
    const made = of(row, random)
    const others = rows.filter(({ part }) => part.id !== id)
    return withRows(catalogue, list, [...others, { ...made, part: { ...made.part, id } }])
  }
}

function onOne(catalogue: Loose, random: RandomStream, change: (row: Row) => Row): Loose {
  const list = random.pick(LISTS)
  const rows = rowsOf(catalogue, list)
  const chosen = random.pick(rows)
  return withRows(
    catalogue,
    list,
    rows.map((row) => (row === chosen ? change(row) : row)),
  )
}

const rowsOf = (catalogue: Loose, list: ListName): readonly Row[] => catalogue[list]
const withRows = (catalogue: Loose, list: ListName, rows: readonly Row[]): Loose =>
  ({ ...catalogue, [list]: rows }) as Loose
