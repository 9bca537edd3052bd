// The whole list as one table, a row a setup, and for each the answer to "why not this one?". All of it is in the page
// itself; the script only sorts and hides rows.
import { amountOf, bare, bareSpeed, clock, reserve } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Member, Result } from '@ductwright/contract/result'
import { targetSpeed } from '../charts/named-members.js'
import { partsLine, settingsLine } from '../setup-words.js'
import { byPurchase, reasons } from './reasons.js'

interface Column {
  readonly key: string
  readonly title: string
  readonly unit: string
  cell(member: Member): string
}

function columnsFor(currency: string, target: number): readonly Column[] {
  return [
    { key: 'rank', title: 'number', unit: '', cell: ({ rank }) => bare('count', rank) },
    { key: 'purchase', title: 'purchase', unit: '', cell: ({ purchase }) => bare('count', purchase) },
    { key: 'reaches', title: 'as asked', unit: '', cell: ({ score }) => (score.reaches ? 'yes' : 'no') },
    { key: 'speed', title: 'speed', unit: 'km/h', cell: ({ raw }) => bareSpeed(raw.speed_km_h, target) },
    { key: 'time', title: 'flight time', unit: 'min', cell: ({ raw }) => clock(raw.flight_time_s) },
    { key: 'cost', title: 'to pay', unit: currency, cell: ({ raw }) => amountOf(raw.cost) },
    { key: 'margin', title: 'below design load', unit: '', cell: ({ raw }) => reserve(raw.margin) },
    { key: 'headroom', title: 'free to nearest limit', unit: '', cell: ({ figures }) => reserve(figures.headroom) },
  ]
}

export function FrontTable({ result }: { readonly result: Result }) {
  const columns = columnsFor(inert(result.catalogue.currency, 8), targetSpeed(result))
  const purchases = byPurchase(result.front)
  const members = [...result.front].sort((a, b) => a.rank - b.rank)
  return (
    <table id="whole-list">
      <thead>
        <tr>
          {columns.map(({ key, title, unit }) => (
            <th scope="col" data-column={key} aria-sort={key === 'rank' ? 'ascending' : undefined}>
              {unit === '' ? title : `${title}, ${unit}`}
            </th>
          ))}
          <th scope="col" class="left" data-column="parts">
            parts and settings
          </th>
        </tr>
      </thead>
      <tbody>
        {members.map((member) => (
          <Row member={member} same={purchases.get(member.purchase) ?? []} columns={columns} result={result} />
        ))}
      </tbody>
    </table>
  )
}

interface RowParts {
  readonly member: Member
  readonly same: readonly Member[]
  readonly columns: readonly Column[]
  readonly result: Result
}

function Row({ member, same, columns, result }: RowParts) {
  const picked = result.picks.some(({ rank }) => rank === member.rank)
  return (
    <tr data-rank={member.rank} class={picked ? 'pick' : undefined}>
      {columns.map((column) => (
        <td data-label={column.unit === '' ? column.title : `${column.title}, ${column.unit}`}>
          {column.cell(member)}
        </td>
      ))}
      <td class="left what">
        <div>{partsLine(member.setup, result.names)}</div>
        <div class="note">{settingsLine(member.setup, member.figures)}</div>
        <details>
          <summary>{member.rank === 1 ? 'Why this one?' : 'Why not this one?'}</summary>
          <ul>
            {reasons(member, same, result).map((reason) => (
              <li>{reason}</li>
            ))}
          </ul>
        </details>
      </td>
    </tr>
  )
}
