// Any row of a catalogue as the cells of its table. What an airframe is made of stands in the same row, behind
// `structure.` and `drag.`, since some columns of those two tables bear the same names.
import type { ListedAirframe } from '../catalogue.js'
import type { Entry, ListName } from '../lists.js'
import { airframeCells } from './airframe-cells.js'
import type { Cell, Cells } from './cells.js'
import { dragCells } from './drag-cells.js'
import { escCells } from './esc-cells.js'
import { fanCells } from './fan-cells.js'
import { motorCells } from './motor-cells.js'
import { packCells } from './pack-cells.js'
import { setCells, treatmentCells } from './shop-cells.js'
import { structureCells } from './structure-cells.js'

type CellsOfList = { readonly [List in ListName]: (entry: Entry<List>) => Cells }

const CELLS: CellsOfList = {
  fans: fanCells,
  motors: motorCells,
  escs: escCells,
  packs: packCells,
  airframes: wholeAirframeCells,
  sets: setCells,
  treatments: treatmentCells,
}

export function cellsOfEntry(list: ListName, entry: Entry): Cells {
  return (CELLS[list] as (entry: Entry) => Cells)(entry)
}

function wholeAirframeCells(listed: ListedAirframe): Cells {
  const { structure, dragGeometry } = listed.part
  return {
    ...airframeCells(listed),
    structure: structure === null ? null : 'given',
    drag: dragGeometry === null ? null : 'given',
    ...(structure === null ? {} : behind('structure', structureCells(structure))),
    ...(dragGeometry === null ? {} : behind('drag', dragCells(dragGeometry))),
  }
}

function behind(table: string, cells: Cells): Record<string, Cell> {
  return Object.fromEntries(Object.entries(cells).map(([column, cell]) => [`${table}.${column}`, cell]))
}
