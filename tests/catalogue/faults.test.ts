// Every kind of fault in the tables is found, with file, line, column, rule and value, and all of them at once.
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { CatalogueError } from '@ductwright/catalogue/catalogue-fault'
import { readCatalogue, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { describe, expect, it } from 'vitest'
import { cellOf, demoFiles, type Files, faultsOf, rowsOf, withCell, withRows } from './edit-tables.js'

type Case = readonly [what: string, file: string, line: number, column: string, value: string, rule: string]

const oneCell: readonly Case[] = [
  ['a word for a number', 'fans.csv', 3, 'mass_g', 'heavy', 'number'],
  ['an empty number', 'fans.csv', 3, 'mass_g', '', 'number'],
  ['a number with its unit', 'motors.csv', 4, 'mass_g', '120 g', 'unit'],
  ['a number in another unit', 'packs.csv', 4, 'capacity_mah', '5 Ah', 'unit'],
  ['a percentage with its sign', 'fans.csv', 4, 'peak_efficiency_percent', '70 %', 'unit'],
  ['a formula for a number', 'motors.csv', 4, 'mass_g', '=SUM(A1:A9)', 'formula'],
  ['a formula by plus for a number', 'packs.csv', 4, 'price', '+A1', 'formula'],
  ['a formula for a choice', 'airframes.csv', 4, 'launch', '=wheels', 'formula'],
  ['hexadecimal', 'packs.csv', 5, 'mass_g', '0x50', 'number'],
  ['infinity by exponent', 'packs.csv', 5, 'mass_g', '1e999', 'number'],
  ['the word NaN', 'packs.csv', 5, 'mass_g', 'NaN', 'number'],
  ['a number out of range', 'fans.csv', 2, 'tip_diameter_mm', '900', 'range'],
  ['a negative price', 'escs.csv', 6, 'price', '-1', 'range'],
  ['a cell without resistance', 'packs.csv', 8, 'cell_resistance_mohm', '0', 'range'],
  ['half a cell', 'packs.csv', 7, 'cells', '4.5', 'number'],
  ['timings out of order', 'escs.csv', 2, 'timings_deg', '15 5', 'value'],
  ['a timing that is a word', 'escs.csv', 2, 'timings_deg', '5 high', 'number'],
  ['a word that is no choice', 'airframes.csv', 2, 'launch', 'catapult', 'choice'],
  ['a formula', 'fans.csv', 4, 'name', '=1+1', 'formula'],
  ['a formula by plus', 'motors.csv', 4, 'maker', '+49', 'formula'],
  ['a formula by minus', 'packs.csv', 4, 'connector', '-bullet', 'formula'],
  ['a formula by at', 'sets.csv', 4, 'name', '@sum', 'formula'],
  ['a formula as an id', 'escs.csv', 4, 'id', '=cmd', 'formula'],
  ['an empty text', 'fans.csv', 4, 'maker', '', 'text'],
  ['a long text', 'fans.csv', 4, 'maker', 'x'.repeat(61), 'text'],
  ['a control character', 'fans.csv', 4, 'name', 'Tolk\u0007', 'control-character'],
  ['a hidden direction mark', 'fans.csv', 4, 'name', 'Tolk\u202Eabc', 'control-character'],
  ['an id with capitals', 'escs.csv', 4, 'id', 'Esc-One', 'id'],
  ['an id of 65 characters', 'escs.csv', 4, 'id', 'a'.repeat(65), 'id'],
  ['a day that is none', 'catalogue.csv', 2, 'dated', '2026-02-30', 'format'],
  ['a currency in small letters', 'catalogue.csv', 2, 'currency', 'eur', 'format'],
  ['a second currency', 'packs.csv', 9, 'currency', 'USD', 'currency'],
  ['an id used twice in a table', 'escs.csv', 3, 'id', 'esc-nidra-40', 'duplicate-id'],
  ['an id used in two tables', 'packs.csv', 3, 'id', 'esc-nidra-40', 'duplicate-id'],
  ['a set of an unknown fan', 'sets.csv', 2, 'fan_id', 'fan-nowhere-90-1', 'unknown-part'],
  ['a set of an unknown motor', 'sets.csv', 2, 'motor_id', 'motor-nowhere', 'unknown-part'],
  ['a set whose motor does not fit', 'sets.csv', 2, 'motor_id', 'motor-torva-4482-820', 'set-fit'],
  ['a hub wider than its rotor', 'fans.csv', 2, 'hub_diameter_mm', '60', 'order'],
  ['a lasting current above the short one', 'packs.csv', 2, 'continuous_current_a', '790', 'order'],
  ['least cells above most', 'escs.csv', 2, 'cells_max', '2', 'order'],
  ['a take-off mass below the empty mass', 'airframes.csv', 2, 'take_off_mass_limit_g', '201', 'order'],
  ['a fan no rotor behaves like', 'fans.csv', 2, 'pressure_rise_slope', '0.3', 'fan-gate'],
  ['a way to freewheel that is no choice', 'escs.csv', 2, 'freewheel', 'both', 'choice'],
  ['a dead time with a diode', 'escs.csv', 2, 'dead_time_ns', '300', 'freewheel'],
  ['no dead time without a diode', 'escs.csv', 6, 'dead_time_ns', '', 'freewheel'],
  ['a dead time of nothing without a diode', 'escs.csv', 6, 'dead_time_ns', '0', 'freewheel'],
  ['magnets that never get hot', 'motors.csv', 2, 'magnet_temperature_limit_c', '400', 'range'],
  ['a lead without a gauge', 'packs.csv', 2, 'lead_gauge_awg', '', 'leads'],
  ['a lead without a length', 'packs.csv', 2, 'lead_length_mm', '', 'leads'],
  ['half a gauge', 'packs.csv', 2, 'lead_gauge_awg', '10.5', 'number'],
  ['a connector nobody listed', 'packs.csv', 2, 'connector', 'bullet 7 mm', 'leads'],
  ['a lasting current nobody believes', 'packs.csv', 3, 'continuous_current_a', '285', 'believable-current'],
  ['neither design speed nor structure', 'airframes.csv', 2, 'design_speed_km_h', '', 'required'],
  ['neither drag area nor geometry', 'airframes.csv', 2, 'drag_area_m2', '', 'required'],
  ['flaps that lower the lift', 'airframes.csv', 3, 'lift_coefficient_max_flaps', '0.9', 'order'],
  ['a structure of an unknown airframe', 'airframe-structure.csv', 2, 'airframe_id', 'airframe-none', 'unknown-part'],
  ['a drag of an unknown airframe', 'airframe-drag.csv', 2, 'airframe_id', 'airframe-none', 'unknown-part'],
  ['a second structure', 'airframe-structure.csv', 3, 'airframe_id', 'airframe-jorrel-64', 'duplicate-row'],
  ['a second drag', 'airframe-drag.csv', 4, 'airframe_id', 'airframe-jorrel-90', 'duplicate-row'],
  ['a wing longer than its span', 'airframe-structure.csv', 2, 'wing_semispan_mm', '500', 'structure-fit'],
  ['an aileron wider than its wing', 'airframe-structure.csv', 2, 'aileron_chord_mm', '170', 'order'],
  ['an aileron longer than its wing', 'airframe-structure.csv', 2, 'aileron_span_mm', '350', 'order'],
  ['a stiffness in another unit', 'airframe-structure.csv', 3, 'wing_torsional_stiffness_nm2', '16e6', 'range'],
  ['an area in another unit', 'airframe-drag.csv', 3, 'wing_wetted_area_dm2', '4600', 'range'],
  ['friction less than smooth', 'airframe-drag.csv', 3, 'roughness', '0.9', 'range'],
  ['a treatment nobody models', 'treatments.csv', 2, 'id', 'wax', 'choice'],
  ['a treatment twice', 'treatments.csv', 3, 'id', 'seal-gaps', 'duplicate-id'],
  ['a treatment in another currency', 'treatments.csv', 2, 'currency', 'USD', 'currency'],
]

describe('one spoilt cell', () => {
  it.each(oneCell)('%s: %s:%i %s %s', (_what, file, line, column, value, rule) => {
    const faults = faultsOf(withCell(demoFiles, file, line, column, value))
    // Other rows may now be wrong too (a set may lack its part); the fault itself must be among them, once.
    const here = faults.filter((fault) => fault.file === file && fault.line === line && fault.rule === rule)
    expect(here.length).toBeGreaterThan(0)
    for (const fault of here) expect(fault.message).not.toBe('')
    if (rule === 'fan-gate' || rule === 'order') return
    expect(here).toHaveLength(1)
    const shown = JSON.stringify(value)
    expect(here[0]).toMatchObject({ column, value: shown.length > 80 ? `${shown.slice(0, 77)}..."` : shown })
  })
})

describe('spoilt files', () => {
  it('a missing table', () => {
    const { 'packs.csv': _packs, ...files } = demoFiles
    expect(faultsOf(files)).toEqual([expect.objectContaining({ file: 'packs.csv', line: 0, rule: 'missing-file' })])
  })

  it('a table too many', () => {
    expect(faultsOf({ ...demoFiles, 'props.csv': 'id\n' })).toEqual([
      expect.objectContaining({ file: 'props.csv', rule: 'unknown-file' }),
    ])
  })

  it('an empty file, and a header without rows', () => {
    const header = `${demoFiles['escs.csv']!.split('\n')[0]}\n`
    const faults = faultsOf({ ...demoFiles, 'packs.csv': '', 'escs.csv': header })
    expect(faults).toEqual([
      expect.objectContaining({ file: 'escs.csv', line: 1, rule: 'empty-table' }),
      expect.objectContaining({ file: 'packs.csv', line: 0, rule: 'empty-table' }),
    ])
  })

  it('no sets and no treatments are no fault', () => {
    const header = (file: string) => `${demoFiles[file]!.split('\n')[0]}\n`
    const files = { ...demoFiles, 'sets.csv': header('sets.csv'), 'treatments.csv': header('treatments.csv') }
    expect(readCatalogue(files)).toMatchObject({ sets: [], treatments: [] })
  })

  it('columns unknown, missing and doubled', () => {
    const rows = rowsOf(demoFiles, 'fans.csv')
    const mass = rows[0]!.indexOf('mass_g')
    rows[0]![mass] = 'weight'
    rows[0]!.push('price')
    for (const row of rows.slice(1)) row.push('1')
    const faults = faultsOf(withRows(demoFiles, 'fans.csv', rows))
    expect(faults.map(({ line, column, rule }) => [line, column, rule])).toEqual([
      [1, 'weight', 'unknown-column'],
      [1, 'price', 'duplicate-column'],
      [1, 'mass_g', 'missing-column'],
    ])
  })

  it('a row with a cell too few', () => {
    const rows = rowsOf(demoFiles, 'motors.csv')
    rows[5]!.pop()
    expect(faultsOf(withRows(demoFiles, 'motors.csv', rows))).toContainEqual(
      expect.objectContaining({ file: 'motors.csv', line: 6, rule: 'cell-count' }),
    )
  })

  it('an open quote', () => {
    const files = { ...demoFiles, 'escs.csv': demoFiles['escs.csv']!.replace('Tessmark', '"Tessmark') }
    expect(faultsOf(files)).toContainEqual(expect.objectContaining({ file: 'escs.csv', rule: 'csv' }))
  })

  it('a second row of facts about the catalogue', () => {
    const files = {
      ...demoFiles,
      'catalogue.csv': `${demoFiles['catalogue.csv']}${demoFiles['catalogue.csv']!.split('\n')[1]}\n`,
    }
    expect(faultsOf(files)).toContainEqual(expect.objectContaining({ file: 'catalogue.csv', line: 3, rule: 'one-row' }))
  })

  it('bytes that are not UTF-8', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'catalogue-'))
    try {
      for (const [file, text] of Object.entries(demoFiles)) await writeFile(join(folder, file), text)
      // Spreadsheets saving "CSV" without "UTF-8" write one byte for an umlaut.
      const latin = Buffer.from(demoFiles['fans.csv']!.replace('Merle 64-9', 'Mérle 64-9'), 'latin1')
      await writeFile(join(folder, 'fans.csv'), latin)
      const line = demoFiles['fans.csv']!.split('\n').findIndex((text) => text.includes('Merle 64-9')) + 1
      const error: unknown = await readCatalogueFolder(folder).catch((reason: unknown) => reason)
      expect(error).toBeInstanceOf(CatalogueError)
      expect((error as CatalogueError).faults[0]).toMatchObject({ file: 'fans.csv', line, rule: 'encoding' })
    } finally {
      await rm(folder, { recursive: true })
    }
  })
})

describe('many faults', () => {
  it('are all reported at once, in the order of the files', () => {
    // Faults that do not hide each other: each spoils another row.
    const spoilt = oneCell.filter(
      ([, file, , , , rule]) => file === 'packs.csv' || file === 'airframes.csv' || rule === 'range',
    )
    const used = new Set<string>()
    let files: Files = demoFiles
    const expected: (readonly [string, number, string])[] = []
    for (const [, file, line, column, value, rule] of spoilt) {
      if (used.has(`${file}:${line}`)) continue
      used.add(`${file}:${line}`)
      files = withCell(files, file, line, column, value)
      expected.push([file, line, rule])
    }
    const faults = faultsOf(files)
    expect(expected.length).toBeGreaterThan(6)
    for (const [file, line, rule] of expected)
      expect(faults, `${file}:${line} ${rule}`).toContainEqual(expect.objectContaining({ file, line, rule }))
  })

  it('in one row are reported cell by cell', () => {
    const files = withCell(withCell(demoFiles, 'packs.csv', 3, 'mass_g', 'x'), 'packs.csv', 3, 'name', '=x')
    const rules = faultsOf(files)
      .filter(({ line }) => line === 3)
      .map(({ column, rule }) => [column, rule])
    expect(rules).toEqual([
      ['name', 'formula'],
      ['mass_g', 'number'],
    ])
  })

  it('are summed up in the error: place, column, value and rule', () => {
    const files = withCell(demoFiles, 'fans.csv', 2, 'tip_diameter_mm', '900')
    expect(() => readCatalogue(files)).toThrow(
      /fans\.csv:2 tip_diameter_mm "900": must be a number from 30 to 200 mm \[range\]/,
    )
  })

  it('a broken part is not also called unknown by its set', () => {
    const fan = cellOf(demoFiles, 'sets.csv', 2, 'fan_id')
    const line = rowsOf(demoFiles, 'fans.csv').findIndex((row) => row[0] === fan) + 1
    const faults = faultsOf(withCell(demoFiles, 'fans.csv', line, 'mass_g', 'x'))
    expect(faults.map(({ rule }) => rule)).toEqual(['number'])
  })
})
