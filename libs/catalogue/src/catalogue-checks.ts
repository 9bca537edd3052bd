// What must hold between the rows of a catalogue: ids used once across all tables, one currency, sets made of parts that
// exist and fit each other, fans that behave. Each check returns every fault it finds.
import type { Fan } from '@ductwright/models/fan/fan'
import type { Motor } from '@ductwright/models/motor/motor'
import type { Listed, PartSet } from './catalogue.js'
import { type CatalogueFault, shownCell } from './catalogue-fault.js'
import { fanGate } from './fan-gate.js'
import type { ReadTable } from './row-faults.js'

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

const GATE_COLUMN = {
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
  const knownFans = new Set(fans.lines.map(({ cells }) => cells['id']))
  const knownMotors = new Set(motors.lines.map(({ cells }) => cells['id']))
  return sets.passed.flatMap(({ line, row }) => {
    const faults: CatalogueFault[] = []
    if (!knownFans.has(row.fanId))
      faults.push(fault(sets.file, line, 'fan_id', 'unknown-part', row.fanId, 'is not the id of a fan in fans.csv'))
    if (!knownMotors.has(row.motorId))
      faults.push(
        fault(sets.file, line, 'motor_id', 'unknown-part', row.motorId, 'is not the id of a motor in motors.csv'),
      )
    const fan = fans.passed.find((other) => other.row.part.id === row.fanId)?.row.part
    const motor = motors.passed.find((other) => other.row.part.id === row.motorId)?.row.part
    if (fan && motor && !fits(fan, motor))
      faults.push(
        fault(
          sets.file,
          line,
          'motor_id',
          'set-fit',
          row.motorId,
          `does not fit fan ${row.fanId}: can or shaft differ`,
        ),
      )
    return faults
  })
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
