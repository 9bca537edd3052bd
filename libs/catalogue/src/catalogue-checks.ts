// What must hold between the rows of a catalogue: ids used once across all tables, one currency, sets made of parts that
// exist and fit each other, fans that behave. Each check returns every fault it finds.
import type { Fan } from '@ductwright/models/fan/fan'
import type { Motor } from '@ductwright/models/motor/motor'
import type { Listed, PartSet } from './catalogue.js'
import { type CatalogueFault, shownCell } from './catalogue-fault.js'
import { fanGate } from './fan-gate.js'
import { isUnread, type ReadTable } from './row-faults.js'

/** Room a shaft may lack or have in its bore, m. Assumed: what an adapter collet takes up. */
const SHAFT_PLAY = 0.00005

type AnyTable = ReadTable<unknown>

export function duplicateIds(tables: readonly AnyTable[], idColumns: ReadonlyMap<string, string>): CatalogueFault[] {
  const first = new Map<string, string>()
  const faults: CatalogueFault[] = []
  for (const { file, lines } of tables) {
    const column = idColumns.get(file) ?? 'id'
    for (const { line, cells } of lines) {
      const id = cells[column] ?? ''
      const before = first.get(id)
      if (id === '') continue
      if (before === undefined) first.set(id, `${file}:${line}`)
      else
        faults.push(
          fault(
            file,
            line,
            column,
            'duplicate-id',
            id,
            `is already the id of ${before}; ids are used once in all tables`,
          ),
        )
    }
  }
  return faults
}

export function currencyFaults(tables: readonly AnyTable[], currency: string): CatalogueFault[] {
  return tables.flatMap(({ file, lines }) =>
    lines.flatMap(({ line, cells }) => {
      const found = cells['currency']
      if (found === undefined || found === currency) return []
      const message = `is not the currency of this catalogue (${currency}); a catalogue has one currency`
      return [fault(file, line, 'currency', 'currency', found, message)]
    }),
  )
}

export function gateFaults(fans: ReadTable<Listed<Fan>>): CatalogueFault[] {
  return fans.passed.flatMap(({ line, row }) =>
    fanGate(row.part).map((breach) =>
      fault(fans.file, line, GATE_COLUMN[breach.rule], 'fan-gate', String(breach.found), breach.words),
    ),
  )
}

/** The column to look at first for each bound of the gate. */
export const GATE_COLUMN = {
  'euler-work': 'pressure_rise_at_zero_flow',
  'euler-work-slope': 'peak_efficiency_flow_coefficient',
  'de-haller': 'pressure_rise_at_zero_flow',
  'power-in-flight': 'pressure_rise_slope',
  'efficiency-floor': 'efficiency_curvature',
} as const

export function setFaults(
  sets: ReadTable<PartSet>,
  fans: ReadTable<Listed<Fan>>,
  motors: ReadTable<Listed<Motor>>,
): CatalogueFault[] {
  const [fanOf, motorOf] = [finder(fans), finder(motors)]
  return sets.passed.flatMap(({ line, row }) =>
    setBreaches(row, fanOf(row.fanId), motorOf(row.motorId)).map(({ column, rule, value, message }) =>
      fault(sets.file, line, column, rule, value, message),
    ),
  )
}

/** A part by its id; `faulty`: listed, or in a table that could not be read, so that nothing more can be said of it. */
export type Found<Part> = Part | 'unknown' | 'faulty'

function finder<Part extends { readonly id: string }>(table: ReadTable<Listed<Part>>): (id: string) => Found<Part> {
  const parts = new Map(table.passed.map(({ row }) => [row.part.id, row.part]))
  const ids = new Set(table.lines.map(({ cells }) => cells['id']))
  return (id) => parts.get(id) ?? (ids.has(id) || isUnread(table) ? 'faulty' : 'unknown')
}

/** What is wrong with a set, given the parts it names. */
export interface SetBreach {
  readonly column: 'fan_id' | 'motor_id'
  readonly rule: 'unknown-part' | 'set-fit'
  readonly value: string
  readonly message: string
}

export function setBreaches(set: PartSet, fan: Found<Fan>, motor: Found<Motor>): SetBreach[] {
  const { fanId, motorId } = set
  const breaches: SetBreach[] = []
  const unknown = 'unknown-part'
  if (fan === 'unknown')
    breaches.push({ column: 'fan_id', rule: unknown, value: fanId, message: 'is not the id of a fan in fans.csv' })
  if (motor === 'unknown')
    breaches.push({
      column: 'motor_id',
      rule: unknown,
      value: motorId,
      message: 'is not the id of a motor in motors.csv',
    })
  if (typeof fan === 'object' && typeof motor === 'object' && !fits(fan, motor)) {
    const message = `does not fit fan ${fanId}: can or shaft differ`
    breaches.push({ column: 'motor_id', rule: 'set-fit', value: motorId, message })
  }
  return breaches
}

function fits(fan: Fan, motor: Motor): boolean {
  return motor.canDiameter <= fan.motorCanLimit && Math.abs(motor.shaftDiameter - fan.shaftBore) <= SHAFT_PLAY
}

function fault(
  file: string,
  line: number,
  column: string,
  rule: string,
  value: string,
  message: string,
): CatalogueFault {
  return { file, line, column, rule, value: shownCell(value), message }
}
