// A catalogue as it is sent, spoilt in the ways uploads are: every fault names file, line, column, rule and value, and a file
// of the wrong size is not even read.
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { generateFiles } from '@ductwright/catalogue/generate/generate-catalogue'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { readCatalogueBytes, readCatalogueJson } from '@ductwright/catalogue/read-upload'
import { FILE_LIMIT_BYTES, UPLOAD_LIMIT_BYTES } from '@ductwright/catalogue/upload-limits'
import { describe, expect, it } from 'vitest'
import { cellOf, demoFiles, type Files, faultsIn, rewrittenFile, rowsOf, withCell, withRows } from './edit-tables.js'

const large: Files = generateFiles({ seed: 400, fans: 20, motors: 400, escs: 20, packs: 30, airframes: 2 })

const bytesOf = (files: Files): Map<string, Uint8Array> =>
  new Map(Object.entries(files).map(([name, text]) => [name, Buffer.from(text, 'utf8')]))

const spoiltBytes = (file: string, content: Uint8Array): Map<string, Uint8Array> =>
  new Map([...bytesOf(demoFiles), [file, content]])

describe('a whole catalogue', () => {
  it('is the same from bytes, from a map of texts and from its own content', () => {
    const read = readCatalogue(demoFiles)
    expect(readCatalogueBytes(bytesOf(demoFiles))).toEqual(read)
    expect(readCatalogueJson({ files: demoFiles })).toEqual(read)
    expect(readCatalogueJson(JSON.parse(catalogueContent(read)))).toEqual(read)
  })
})

describe('one bad row of 400', () => {
  it('is named by file, line, column, rule and value, and is the only fault', () => {
    const line = 18
    const files = withCell(large, 'motors.csv', line, 'winding_temperature_limit_c', '1500')
    expect(faultsIn(() => readCatalogueBytes(bytesOf(files)))).toEqual([
      {
        file: 'motors.csv',
        line,
        column: 'winding_temperature_limit_c',
        rule: 'range',
        value: '"1500"',
        message: 'must be a number from 60 to 220 °C',
      },
    ])
  })
})

describe('an upload with many faults', () => {
  it('names each at its place, all at once', () => {
    let files = withCell(large, 'motors.csv', 18, 'mass_g', '0.31 kg')
    files = withCell(files, 'packs.csv', 4, 'capacity_mah', '5200,5')
    files = withCell(files, 'escs.csv', 6, 'name', '=HYPERLINK("x")')
    files = withCell(files, 'fans.csv', 5, 'id', cellOf(files, 'fans.csv', 3, 'id'))
    files = withCell(files, 'airframes.csv', 2, 'price', '@A1')
    const faults = faultsIn(() => readCatalogueBytes(bytesOf(files)))
    expect(faults.map(({ file, line, column, rule }) => [file, line, column, rule])).toEqual([
      ['fans.csv', 5, 'id', 'duplicate-id'],
      ['motors.csv', 18, 'mass_g', 'unit'],
      ['escs.csv', 6, 'name', 'formula'],
      ['packs.csv', 4, 'capacity_mah', 'decimal-sign'],
      ['airframes.csv', 2, 'price', 'formula'],
    ])
    expect(faults[0]).toMatchObject({ value: JSON.stringify(cellOf(files, 'fans.csv', 3, 'id')) })
    expect(faults[0]?.message).toContain('fans.csv:3')
    expect(faults[1]?.message).toMatch(/unit \(kg\).*from 5 to 5000 g/)
  })
})

describe('mixed units', () => {
  it('in the head: a column of another unit is named with the one the table has', () => {
    const rows = rowsOf(demoFiles, 'packs.csv')
    rows[0]![rows[0]!.indexOf('capacity_mah')] = 'capacity_ah'
    const faults = faultsIn(() => readCatalogue(withRows(demoFiles, 'packs.csv', rows)))
    expect(faults[0]).toMatchObject({ file: 'packs.csv', line: 1, column: 'capacity_ah', rule: 'unit' })
    expect(faults[0]?.message).toContain('capacity_mah')
  })

  it('in the decimal sign: a file written with commas among files with points is named', () => {
    const files = { ...demoFiles, 'escs.csv': rewrittenFile(demoFiles, 'escs.csv', ';', true) }
    const rules = faultsIn(() => readCatalogue(files)).map(({ file, rule }) => [file, rule])
    expect(rules).toEqual([
      ['escs.csv', 'mixed-decimals'],
      ['escs.csv', 'mixed-separators'],
    ])
  })
})

describe('wrong encodings', () => {
  const text = demoFiles['fans.csv']!

  it.each([
    ['UTF-16 with a byte order mark', Buffer.from(`\uFEFF${text}`, 'utf16le'), /UTF-16/],
    ['UTF-16 without one', Buffer.from(text, 'utf16le'), /UTF-16/],
    ['big-endian UTF-16', Buffer.from(`\uFEFF${text}`, 'utf16le').swap16(), /UTF-16/],
    ['Latin-1', Buffer.from(text.replace('Merle', 'Mérle'), 'latin1'), /not UTF-8/],
  ])('%s is named, and its parts are not called missing by others', (_what, bytes, words) => {
    const faults = faultsIn(() => readCatalogueBytes(spoiltBytes('fans.csv', bytes)))
    expect(faults).toHaveLength(1)
    expect(faults[0]).toMatchObject({ file: 'fans.csv', rule: 'encoding' })
    expect(faults[0]?.line).toBeGreaterThan(0)
    expect(faults[0]?.message).toMatch(words)
  })
})

describe('sizes', () => {
  it('a file of 50 MB is refused by its size, with the limit, and nothing else is looked at', () => {
    const huge = Buffer.alloc(50 * 1024 * 1024, 'a')
    const files = spoiltBytes('motors.csv', huge)
    files.set('fans.csv', Buffer.from('broken'))
    expect(faultsIn(() => readCatalogueBytes(files))).toEqual([
      {
        file: 'motors.csv',
        line: 0,
        column: '',
        rule: 'size',
        value: '50.0 MiB',
        message: `is larger than ${FILE_LIMIT_BYTES / 1024 / 1024} MiB, the most that is read`,
      },
    ])
  })

  it('files that are too large only together are refused too', () => {
    const half = Buffer.alloc(FILE_LIMIT_BYTES, 'a')
    const files = new Map([...bytesOf(demoFiles), ['a.csv', half], ['b.csv', half]] as const)
    expect(faultsIn(() => readCatalogueBytes(files))).toEqual([
      expect.objectContaining({ file: 'all files together', rule: 'size' }),
    ])
    expect(UPLOAD_LIMIT_BYTES).toBe(2 * FILE_LIMIT_BYTES)
  })

  it('a table of more rows than are read is refused as a whole', () => {
    const [header] = demoFiles['sets.csv']!.split('\n')
    const files = { ...demoFiles, 'sets.csv': `${header}\n${'a,b,c,d,e,1,1,EUR\n'.repeat(10_001)}` }
    expect(faultsIn(() => readCatalogue(files))).toEqual([
      expect.objectContaining({ file: 'sets.csv', rule: 'rows', value: '"10001"' }),
    ])
  })
})

describe('JSON that is no catalogue', () => {
  it.each([
    ['a list', [], '', 'form'],
    ['an empty object', {}, '', 'form'],
    ['files that are a list', { files: [] }, '/files', 'type'],
    ['a file that is a number', { files: { 'fans.csv': 1 } }, '/files/fans.csv', 'type'],
    ['a name with a slash', { files: { 'a/b': null } }, '/files/a~1b', 'type'],
    ['something beside the files', { files: demoFiles, name: 'x' }, '/name', 'unknown-field'],
  ])('%s', (_what, json, pointer, rule) => {
    expect(faultsIn(() => readCatalogueJson(json))).toEqual([expect.objectContaining({ pointer, rule })])
  })
})
