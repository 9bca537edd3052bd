// The setup recommended until now and the one recommended now, row by row.
import { amountOf, bare, clock, percent, reserve } from '@ductwright/contract/figures'
import { cut, inert } from '@ductwright/contract/inert'
import type { Member, Result } from '@ductwright/contract/result'
import type { Block } from '../letter.js'
import { packsOf, partName } from '../setup-words.js'
import type { AnswerChange } from './answer-change.js'

const longestCell = 90
const none = '—'

interface Side {
  readonly member: Member | undefined
  readonly result: Result
}

interface Row {
  readonly label: string
  readonly shown: (member: Member, result: Result) => string
}

const rows: readonly Row[] = [
  { label: 'Fan', shown: ({ setup }, { names }) => partName(names, setup.fan) },
  { label: 'Motor', shown: ({ setup }, { names }) => partName(names, setup.motor) },
  { label: 'Controller', shown: ({ setup }, { names }) => partName(names, setup.esc) },
  { label: 'Packs', shown: ({ setup }, { names }) => packsOf(setup, names) },
  { label: 'Throttle cap', shown: ({ setup }) => (setup.duty >= 1 ? 'none' : percent(setup.duty)) },
  { label: 'Speed, km/h', shown: ({ raw }) => bare('speed', raw.speed_km_h) },
  { label: 'Flight, min', shown: ({ raw }) => clock(raw.flight_time_s) },
  { label: 'To pay', shown: ({ raw }, { catalogue }) => `${amountOf(raw.cost)} ${inert(catalogue.currency, 8)}` },
  { label: 'In reserve', shown: ({ raw }) => reserve(raw.margin) },
]

export function sideBySide(change: AnswerChange, old: Result, now: Result): Block {
  const sides: readonly Side[] = [
    { member: change.old, result: old },
    { member: change.now, result: now },
  ]
  return {
    kind: 'grid',
    columns: [
      { title: '', align: 'left' },
      { title: 'until now', align: 'left' },
      { title: 'now', align: 'left' },
    ],
    rows: rows.map(({ label, shown }) => [
      label,
      ...sides.map(({ member, result }) => (member === undefined ? none : cut(shown(member, result), longestCell))),
    ]),
  }
}
