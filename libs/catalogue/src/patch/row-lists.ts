// Lists of rows in JSON, table → rows, as a patch and a list of own parts hold them.
import type { CatalogueFault } from '../catalogue-fault.js'
import { escaped, isRecord, jsonFault, type PlacedRow, readJsonRow } from '../json-rows.js'
import { type ListName, listNames } from '../lists.js'

/** Lists of rows by table; faults go into `faults`. */
export function readRowLists(value: unknown, pointer: string, currency: string, faults: CatalogueFault[]): PlacedRow[] {
  if (value === undefined) return []
  const place = { list: 'catalogue' as const, pointer }
  if (!isRecord(value)) {
    faults.push(jsonFault(place, '', 'type', value, 'must be an object: table → list of rows'))
    return []
  }
  return Object.entries(value).flatMap(([name, list]) => {
    const here = `${pointer}/${escaped(name)}`
    if (isListName(name) && Array.isArray(list))
      return list.flatMap((row, i) => {
        const read = readJsonRow(name, row, `${here}/${i}`, currency)
        if ('row' in read) return [read.row]
        faults.push(...read.faults)
        return []
      })
    const rule = isListName(name) ? 'type' : 'unknown-table'
    const message = isListName(name)
      ? 'must be a list of rows'
      : `is not a table of rows; expected ${listNames.join(', ')}`
    faults.push(jsonFault({ list: 'catalogue', pointer: here }, '', rule, name, message))
    return []
  })
}

function isListName(name: string): name is ListName {
  return (listNames as readonly string[]).includes(name)
}
