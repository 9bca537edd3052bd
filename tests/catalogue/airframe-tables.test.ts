// An airframe comes from up to three tables: what each may leave empty, and what is worked out in its place.
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { airframeRow } from '@ductwright/catalogue/rows/airframe-row'
import { standardAtmosphere } from '@ductwright/models/atmosphere/standard-atmosphere'
import { builtUpDragArea } from '@ductwright/models/drag/build-up'
import { describe, expect, it } from 'vitest'
import { columnOf, demoFiles, type Files, faultsOf, rowsOf, withCell, withRows } from './edit-tables.js'

const OPTIONAL = ['airframe-structure.csv', 'airframe-drag.csv', 'treatments.csv']

function without(...gone: readonly string[]): Files {
  return Object.fromEntries(Object.entries(demoFiles).filter(([file]) => !gone.includes(file)))
}

/** The demonstration tables with only the airframe that states everything. */
function statedOnly(files: Files): Files {
  const [header, first] = rowsOf(files, 'airframes.csv')
  return withRows(files, 'airframes.csv', [header!, first!])
}

/** Cells of the rows of one airframe in a table, numbers as JSON would hold them, empty ones left out. */
function jsonOf(file: string, id: string): Record<string, string | number> {
  const [header, ...rows] = rowsOf(demoFiles, file)
  const key = header!.includes('airframe_id') ? 'airframe_id' : 'id'
  const row = rows.find((cells) => cells[header!.indexOf(key)] === id)!
  const filled = header!
    .map((column, i) => [column, row[i]!] as const)
    .filter(([column, cell]) => cell !== '' && column !== 'airframe_id')
  return Object.fromEntries(filled.map(([column, cell]) => [column, Number.isNaN(Number(cell)) ? cell : Number(cell)]))
}

const airframe = (id: string, files: Files = demoFiles) =>
  readCatalogue(files).airframes.find(({ part }) => part.id === id)!.part

describe('the optional tables', () => {
  it('may be missing where the airframes state what they would say', () => {
    const catalogue = readCatalogue(statedOnly(without(...OPTIONAL)))
    expect(catalogue.airframes).toHaveLength(1)
    expect(catalogue.treatments).toEqual([])
    expect(catalogue.airframes[0]?.part).toEqual(airframe('airframe-jorrel-50'))
  })

  it('are asked for where they are needed, airframe by airframe', () => {
    const faults = faultsOf(without('airframe-structure.csv'))
    expect(faults).toHaveLength(7)
    for (const fault of faults)
      expect(fault).toMatchObject({ file: 'airframes.csv', column: 'design_speed_km_h', rule: 'required', value: '""' })
    expect(faults[0]?.message).toContain('airframe-structure.csv')
    const drags = faultsOf(without('airframe-drag.csv'))
    expect(drags.map(({ line, column }) => [line, column])).toEqual([
      [3, 'drag_area_m2'],
      [9, 'drag_area_m2'],
    ])
  })

  it('leave one fault one fault: a spoilt structure is not also a missing one', () => {
    const faults = faultsOf(withCell(demoFiles, 'airframe-structure.csv', 2, 'wing_taper', 'x'))
    expect(faults.map(({ file, line, rule }) => [file, line, rule])).toEqual([['airframe-structure.csv', 2, 'number']])
  })

  it('need no row for columns all of whose cells are empty', () => {
    const rows = rowsOf(demoFiles, 'packs.csv')
    const gone = columnOf(demoFiles, 'packs.csv', 'lead_resistance_mohm')
    const files = withRows(
      demoFiles,
      'packs.csv',
      rows.map((row) => row.filter((_, i) => i !== gone)),
    )
    expect(readCatalogue(files).version).toBe(readCatalogue(demoFiles).version)
  })
})

describe('an airframe', () => {
  it('without a stated drag area gets the one that is built up at 80 m/s', () => {
    const { dragArea, dragBasis, dragGeometry } = airframe('airframe-jorrel-64')
    expect(dragArea).toBe(builtUpDragArea(dragGeometry!, 80, standardAtmosphere(0)))
    expect(dragBasis).toBe('built-up')
  })

  it('with a stated drag area keeps it, whatever its geometry adds up to', () => {
    const { dragArea, dragBasis, dragGeometry } = airframe('airframe-plumdart-70')
    expect({ dragArea, dragBasis }).toEqual({ dragArea: 0.00393, dragBasis: 'stated' })
    expect(builtUpDragArea(dragGeometry!, 80, standardAtmosphere(0))).not.toBe(dragArea)
  })

  it('without a span efficiency gets the estimate, 0.85 at most', () => {
    expect(airframe('airframe-jorrel-64').oswald).toBe(0.85)
    const slender = withCell(demoFiles, 'airframes.csv', 3, 'wing_area_dm2', '7')
    // Aspect ratio 0.82²/0.07 = 9.606: 1.78·(1 − 0.045·9.606^0.68) − 0.64, computed by an independent program.
    expect(airframe('airframe-jorrel-64', slender).oswald).toBeCloseTo(0.766962, 6)
    const faults = faultsOf(withCell(demoFiles, 'airframes.csv', 3, 'wing_area_dm2', '3'))
    expect(faults).toEqual([
      expect.objectContaining({ file: 'airframes.csv', line: 3, column: 'oswald_factor', rule: 'required' }),
    ])
  })

  it('without flaps lifts with them as without', () => {
    const { liftCoefficientMax, liftCoefficientMaxFlaps } = airframe('airframe-jorrel-50')
    expect(liftCoefficientMaxFlaps).toBe(liftCoefficientMax)
    expect(airframe('airframe-vintra-90').liftCoefficientMaxFlaps).toBe(1.5)
  })

  it('reads its structure in SI', () => {
    const { structure, designSpeed } = airframe('airframe-jorrel-90')
    expect(designSpeed).toBeNull()
    expect(structure).toEqual({
      wing: {
        semispan: 0.48,
        chord: 0.235,
        taper: 0.53,
        thicknessRatio: 0.11,
        torsionalStiffness: 16,
        massOffset: 0.15,
        elasticOffset: 0.12,
        liftSlope: 4.3,
      },
      tail: {
        semispan: 0.18,
        chord: 0.12,
        taper: 0.8,
        thicknessRatio: 0.09,
        torsionalStiffness: 1.1,
        massOffset: 0.22,
      },
      controls: [
        { name: 'aileron', span: 0.32, chord: 0.05, inertia: 1.2e-5, linkageStiffness: 2.5, servoTorque: 0.3 },
        { name: 'elevator', span: 0.32, chord: 0.036, inertia: 3.2e-6, linkageStiffness: 2.2, servoTorque: 0.2 },
      ],
    })
  })

  it('reads its drag geometry in SI', () => {
    const { dragGeometry } = airframe('airframe-jorrel-90')
    expect(dragGeometry).toMatchObject({
      wing: { wettedArea: 0.46, chord: 0.235, thicknessRatio: 0.11, thicknessPosition: 0.3, laminarShare: 0.05 },
      body: { wettedArea: 0.34, length: 1.1, fineness: 8.46, interference: 1.1, laminarShare: 0.02 },
      roughness: 1.18,
      trailingEdges: { length: 1.55, thickness: 0.003 },
      gaps: { affectedArea: 0.34 },
      gear: { wheels: 0.0042, struts: 0.0016, exposed: 0.24 },
      flatFaces: 0.008,
      cooling: 0.00025,
    })
    expect(dragGeometry!.gaps.sweep).toBeCloseTo((9 * Math.PI) / 180, 12)
    expect(dragGeometry!.horns).toBeCloseTo(2.4e-4, 15)
  })
})

describe('an airframe in JSON', () => {
  const id = 'airframe-jorrel-64'
  const given = jsonOf('airframes.csv', id)
  const structure = jsonOf('airframe-structure.csv', id)
  const drag = jsonOf('airframe-drag.csv', id)

  it('holds structure and drag as objects of the same columns', () => {
    const listed = airframeRow.parse({ ...given, structure, drag })
    expect(readCatalogue(demoFiles).airframes).toContainEqual(listed)
  })

  it.each([
    ['structure', { drag }, ['design_speed_km_h']],
    ['drag', { structure }, ['drag_area_m2']],
    ['both', {}, ['design_speed_km_h', 'drag_area_m2']],
  ])('without %s must state what follows from it', (_name, known, columns) => {
    const issues = airframeRow.safeParse({ ...given, ...known }).error?.issues ?? []
    expect(issues.map(({ path }) => path[0])).toEqual(columns)
    for (const issue of issues) expect(issue).toMatchObject({ code: 'custom', params: { rule: 'required' } })
  })

  it.each([
    ['a wing longer than its span', { structure: { ...structure, wing_semispan_mm: 500 } }, 'wing_semispan_mm'],
    [
      'a stiffness of nothing',
      { structure: { ...structure, wing_torsional_stiffness_nm2: 0 } },
      'wing_torsional_stiffness_nm2',
    ],
    ['a rough negative', { drag: { ...drag, roughness: -1 } }, 'roughness'],
  ])('refuses %s at its place', (_name, change, column) => {
    const issues = airframeRow.safeParse({ ...given, structure, drag, ...change }).error?.issues ?? []
    expect(issues.map(({ path }) => path)).toEqual([[Object.keys(change)[0], column]])
  })

  it.each([
    ['an unknown column of the structure', { structure: { ...structure, wing_sweep_deg: 3 } }],
    ['the id of the table', { drag: { ...drag, airframe_id: id } }],
    ['a list for the structure', { structure: [structure] }],
    ['null for the drag', { drag: null }],
  ])('refuses %s', (_name, change) => {
    expect(airframeRow.safeParse({ ...given, structure, drag, ...change }).success).toBe(false)
  })
})
