// Columns to sort by: the words of each head become a button, the state is told by aria-sort. Rows equal in a column stay
// in the order of the list.
import type { DataRow } from '../page-data.js'

type Value = number | string | boolean

const values: Readonly<Record<string, (row: DataRow) => Value>> = {
  rank: ({ rank }) => rank,
  purchase: ({ purchase }) => purchase,
  speed: ({ raw }) => raw.speed_km_h,
  time: ({ raw }) => raw.flight_time_s,
  cost: ({ raw }) => raw.cost,
  margin: ({ raw }) => raw.margin,
  headroom: ({ headroom }) => headroom,
  reaches: ({ reaches }) => reaches,
  parts: ({ parts }) => parts,
}

/** Ranks in the order of a column. */
export function sortedRanks(rows: readonly DataRow[], column: string, descending: boolean): number[] {
  const value = values[column]
  if (value === undefined) throw new RangeError(`the list has no column ${column}`)
  const sign = descending ? -1 : 1
  const order = [...rows].sort((a, b) => sign * compared(value(a), value(b)) || a.rank - b.rank)
  return order.map(({ rank }) => rank)
}

function compared(a: Value, b: Value): number {
  return a < b ? -1 : a > b ? 1 : 0
}

/** Makes a table sortable whose heads name their column and whose rows carry their rank. */
export function sortTable(table: HTMLTableElement, rows: readonly DataRow[]): void {
  const body = table.tBodies[0]
  if (body === undefined) return
  const heads = [...table.querySelectorAll<HTMLElement>('th[data-column]')]
  const byRank = new Map([...body.rows].map((row) => [Number(row.dataset['rank']), row]))
  for (const head of heads) {
    const button = document.createElement('button')
    button.type = 'button'
    button.append(...head.childNodes)
    head.append(button)
    button.addEventListener('click', () => {
      const descending = head.getAttribute('aria-sort') === 'ascending'
      for (const other of heads) other.removeAttribute('aria-sort')
      head.setAttribute('aria-sort', descending ? 'descending' : 'ascending')
      const ranks = sortedRanks(rows, head.dataset['column'] ?? '', descending)
      body.append(...ranks.flatMap((rank) => byRank.get(rank) ?? []))
    })
  }
}
