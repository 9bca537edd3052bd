// What the tables say must not depend on how they are written.
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { demoFiles, type Files, faultsOf, rewritten, rewrittenFile, rowsOf, withCell, withRows } from './edit-tables.js'

const demo = readCatalogue(demoFiles)
const mapped = (change: (text: string) => string): Files =>
  Object.fromEntries(Object.entries(demoFiles).map(([file, text]) => [file, change(text)]))

describe('the version', () => {
  it.each([
    ['semicolons and decimal commas', rewritten(demoFiles, ';', true)],
    ['semicolons and decimal points', rewritten(demoFiles, ';', false)],
    ['a byte order mark', mapped((text) => `\uFEFF${text}`)],
    ['carriage returns', mapped((text) => text.replaceAll('\n', '\r\n'))],
    [
      'empty lines and rows of empty cells at the end',
      mapped((text) => `${text}\n\n${','.repeat(text.split('\n')[0]!.split(',').length - 1)}\n`),
    ],
    [
      'every cell quoted',
      mapped((text) =>
        text
          .split('\n')
          .map((line) =>
            line.includes('"') || line === ''
              ? line
              : line
                  .split(',')
                  .map((cell) => `"${cell}"`)
                  .join(','),
          )
          .join('\n'),
      ),
    ],
  ])('is the same with %s', (_name, files) => {
    expect(readCatalogue(files)).toEqual(demo)
  })

  it('is the same in whatever order rows and columns stand', () => {
    const shuffles = Object.keys(demoFiles).map((file) => {
      const [header, ...rows] = rowsOf(demoFiles, file)
      return fc.tuple(
        fc.constant(file),
        fc.shuffledSubarray([...rows.keys()], { minLength: rows.length }),
        fc.shuffledSubarray([...header!.keys()], { minLength: header!.length }),
      )
    })
    fc.assert(
      fc.property(fc.tuple(...shuffles), (orders) => {
        let files = demoFiles
        for (const [file, rowOrder, columnOrder] of orders) {
          const [header, ...rows] = rowsOf(demoFiles, file)
          const permuted = [header!, ...rowOrder.map((i) => rows[i]!)].map((row) => columnOrder.map((i) => row[i]!))
          files = withRows(files, file, permuted)
        }
        expect(readCatalogue(files).version).toBe(demo.version)
      }),
      { numRuns: 8 },
    )
  })

  it.each([
    ['a price', 'packs.csv', 2, 'price', '1.5'],
    ['a name', 'fans.csv', 3, 'name', 'Other name'],
    ['the date', 'catalogue.csv', 2, 'dated', '2026-03-15'],
    ['a label rating, which no model uses', 'packs.csv', 4, 'label_rate_c', '12'],
    ['a stiffness', 'airframe-structure.csv', 2, 'wing_torsional_stiffness_nm2', '4.16'],
    ['a flat face', 'airframe-drag.csv', 3, 'flat_face_area_cm2', '81'],
    ['the hours of a treatment', 'treatments.csv', 2, 'hours', '40'],
  ])('changes with %s', (_name, file, line, column, value) => {
    expect(readCatalogue(withCell(demoFiles, file, line, column, value)).version).not.toBe(demo.version)
  })
})

describe('numbers', () => {
  it('are read alike with decimal comma and point', () => {
    const files = withCell(demoFiles, 'escs.csv', 2, 'timings_deg', '7.5 12.25')
    const points = readCatalogue(files)
    expect(readCatalogue(rewritten(files, ';', true))).toEqual(points)
    const timings = points.escs.find(({ part }) => part.id === 'esc-nidra-40')!.part.timings
    expect(timings.map((timing) => Number(((timing * 180) / Math.PI).toFixed(9)))).toEqual([7.5, 12.25])
  })

  it('keep commas in names when decimals are commas', () => {
    const files = withCell(demoFiles, 'fans.csv', 2, 'name', 'Tolk, the small one 1.5')
    expect(readCatalogue(rewritten(files, ';', true))).toEqual(readCatalogue(files))
  })
})

describe('mixed spellings are refused', () => {
  it('two decimal signs in one file', () => {
    const files = { ...rewritten(demoFiles, ';', true) }
    const line = files['packs.csv']!.split('\n')[8]!
    files['packs.csv'] = files['packs.csv']!.replace(line, line.replace(/;(\d+),(\d+);/, ';$1.$2;'))
    const faults = faultsOf(files)
    expect(faults).toHaveLength(1)
    expect(faults[0]).toMatchObject({
      file: 'packs.csv',
      line: 9,
      column: 'cell_resistance_mohm',
      rule: 'decimal-sign',
    })
  })

  it('a decimal comma in a file separated by commas', () => {
    const faults = faultsOf(withCell(demoFiles, 'fans.csv', 2, 'price', '14,90'))
    expect(faults).toEqual([
      expect.objectContaining({ file: 'fans.csv', line: 2, column: 'price', rule: 'decimal-sign', value: '"14,90"' }),
    ])
  })

  it('a thousands separator', () => {
    const faults = faultsOf(withCell(rewritten(demoFiles, ',', false), 'motors.csv', 2, 'speed_limit_rpm', '62,000.5'))
    expect(faults).toEqual([
      expect.objectContaining({ file: 'motors.csv', line: 2, column: 'speed_limit_rpm', rule: 'number' }),
    ])
  })

  it('files with different separators', () => {
    const faults = faultsOf({ ...demoFiles, 'packs.csv': rewrittenFile(demoFiles, 'packs.csv', ';', false) })
    expect(faults).toEqual([
      expect.objectContaining({ file: 'packs.csv', line: 1, rule: 'mixed-separators', value: '";"' }),
    ])
  })

  it('files with different decimal signs', () => {
    const files = { ...rewritten(demoFiles, ';', true), 'packs.csv': rewrittenFile(demoFiles, 'packs.csv', ';', false) }
    expect(faultsOf(files)).toEqual([
      expect.objectContaining({ file: 'packs.csv', rule: 'mixed-decimals', value: '"."' }),
    ])
  })

  it('a header with both separators', () => {
    const files = { ...demoFiles, 'sets.csv': demoFiles['sets.csv']!.replace(',', ';') }
    expect(faultsOf(files)).toEqual([expect.objectContaining({ file: 'sets.csv', line: 1, rule: 'separator' })])
  })
})
