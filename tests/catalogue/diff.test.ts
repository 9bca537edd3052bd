// What differs between two catalogues: nothing between equal ones, every figure of every part, in words that say it, and
// enough to turn the one into the other.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { diffCatalogues, isEmptyDiff } from '@ductwright/catalogue/diff/catalogue-diff'
import { diffWords } from '@ductwright/catalogue/diff/diff-words'
import { amountWords } from '@ductwright/catalogue/diff/number-words'
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import { type Entry, listNames } from '@ductwright/catalogue/lists'
import { applyPatch, patchOf } from '@ductwright/catalogue/patch/catalogue-patch'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { amountOf } from '@ductwright/contract/figures'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { demoFiles } from './edit-tables.js'
import { edits, withList } from './random-edits.js'

const demo = readCatalogue(demoFiles)
const small = generateCatalogue({ seed: 3, fans: 6, motors: 8, escs: 5, packs: 6, airframes: 3 })

const wordsOf = (a: Catalogue, b: Catalogue): string[] => diffWords(diffCatalogues(a, b), b.currency)

/** The demonstration catalogue with the motor of this name changed. */
function withMotor(
  name: string,
  change: (motor: Catalogue['motors'][number]) => Catalogue['motors'][number],
): Catalogue {
  const motors = demo.motors.map((motor) => (motor.name === name ? change(motor) : motor))
  return withList(demo, 'motors', motors)
}

describe('the differences', () => {
  it('of a catalogue from itself are none', () => {
    expect(isEmptyDiff(diffCatalogues(demo, demo))).toBe(true)
    expect(isEmptyDiff(diffCatalogues(demo, readCatalogue(demoFiles)))).toBe(true)
    expect(wordsOf(demo, demo)).toEqual([])
  })

  it('as a patch turn the older into the newer, to the last bit of its version', () => {
    fc.assert(
      fc.property(edits, edits, (one, other) => {
        const [a, b] = [one(small), other(one(small))]
        const diff = diffCatalogues(a, b)
        expect(applyPatch(a, patchOf(diff)).version).toBe(b.version)
        expect(isEmptyDiff(diff)).toBe(a.version === b.version)
      }),
      { numRuns: 150 },
    )
  })

  it('are told the other way round from the other side', () => {
    const turned = { new: 'gone', gone: 'new', dearer: 'cheaper', cheaper: 'dearer', changed: 'changed' } as const
    fc.assert(
      fc.property(edits, (edit) => {
        const there = diffCatalogues(small, edit(small))
        const back = diffCatalogues(edit(small), small)
        expect(back.parts.map(({ kind, id }) => [turned[kind], id])).toEqual(
          there.parts.map(({ kind, id }) => [kind, id]),
        )
        expect(back.parts.map(({ before, after }) => [after, before])).toEqual(
          there.parts.map(({ before, after }) => [before, after]),
        )
      }),
      { numRuns: 60 },
    )
  })

  it('do not depend on the order in which rows were given', () => {
    const { version: _version, ...rest } = demo
    const shuffled = sealCatalogue({ ...rest, motors: demo.motors.toReversed(), packs: demo.packs.toReversed() })
    const b = withMotor('Torva 2548-2950', (motor) => ({ ...motor, price: 1 }))
    expect(diffCatalogues(shuffled, b)).toEqual(diffCatalogues(demo, b))
  })

  it.each(listNames)('notice every figure and word of a row of %s, in a column with its name', (list) => {
    const rows = demo[list] as readonly Entry[]
    const row =
      rows.find((each) => !('part' in each) || !('structure' in each.part) || each.part.structure !== null) ?? rows[0]!
    const changes = mutations(row)
    expect(changes.length).toBeGreaterThan(2)
    for (const { path, changed } of changes) {
      const b = withList(demo, list, rows.map((each) => (each === row ? changed : each)) as never)
      const [found, ...others] = diffCatalogues(demo, b).parts
      expect(others, path).toEqual([])
      expect((found?.columns.length ?? 0) + (found?.before === found?.after ? 0 : 1), path).toBeGreaterThan(0)
      expect(
        found?.columns.filter(({ before, after }) => before === after),
        path,
      ).toEqual([])
    }
  })
})

/** A row changed in one place, for every place in it but its id and what only ever changes with another. */
function mutations(row: Entry): { path: string; changed: Entry }[] {
  const found: { path: string; changed: Entry }[] = []
  const walk = (value: unknown, path: readonly string[]): void => {
    const skipped = ['id', 'kind', 'dragBasis', 'freewheelResistanceShare', 'freewheelDrop', 'dragArea']
    if (skipped.includes(path.at(-1) ?? '') || (path.includes('controls') && path.at(-1) === 'name')) return
    if (path.at(-1) === 'deadTimeDrop' && value === 0) return
    if (typeof value === 'number') found.push({ path: path.join('.'), changed: at(row, path, value * 1.01 + 0.001) })
    else if (typeof value === 'string') found.push({ path: path.join('.'), changed: at(row, path, `${value} x`) })
    else if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key])
  }
  walk(row, [])
  return found
}

function at(value: unknown, [key, ...rest]: readonly string[], put: unknown): Entry {
  const next = rest.length === 0 ? put : at((value as Record<string, unknown>)[key!], rest, put)
  if (Array.isArray(value)) return value.map((each: unknown, i) => (String(i) === key ? next : each)) as never
  return { ...(value as object), [key!]: next } as unknown as Entry
}

describe('the words', () => {
  it('say dearer and cheaper with both prices', () => {
    const dearer = withMotor('Torva 2548-2950', (motor) => ({ ...motor, price: motor.price + 12 }))
    const cheaper = withMotor('Torva 2548-2950', (motor) => ({ ...motor, price: 40 }))
    expect(wordsOf(demo, dearer)).toEqual(['Torva 2548-2950 is 12 EUR dearer (45.90 → 57.90 EUR)'])
    expect(wordsOf(demo, cheaper)).toEqual(['Torva 2548-2950 is 5.90 EUR cheaper (45.90 → 40 EUR)'])
  })

  it('name changed columns with values and units, also beside a price', () => {
    const heavier = (motor: Catalogue['motors'][number]) => ({
      ...motor,
      part: { ...motor.part, mass: 0.11, cellsMax: 6 },
    })
    expect(wordsOf(demo, withMotor('Torva 2548-2950', heavier))).toEqual([
      'Torva 2548-2950 changed: cells max 5 → 6, mass 103 → 110 g',
    ])
    expect(
      wordsOf(
        demo,
        withMotor('Torva 2548-2950', (motor) => ({ ...heavier(motor), price: 50 })),
      ),
    ).toEqual(['Torva 2548-2950 is 4.10 EUR dearer (45.90 → 50 EUR), and changed: cells max 5 → 6, mass 103 → 110 g'])
  })

  it('tell new from gone, and the date of the catalogue first', () => {
    const set = demo.sets[0]!
    const { version: _version, ...rest } = demo
    const b = sealCatalogue({ ...rest, dated: '2026-05-01', sets: demo.sets.slice(1) })
    const what = `${set.name}, set of fan and motor by ${set.maker}`
    expect(wordsOf(demo, b)).toEqual([
      'the catalogue: date of the prices 2026-03-14 → 2026-05-01',
      `gone: ${what}, was ${amountOf(set.price)} EUR`,
    ])
    expect(wordsOf(b, demo)[1]).toBe(`new: ${what}, ${amountOf(set.price)} EUR`)
  })

  it('name the structure of an airframe by its own columns, and one that is gone in a word', () => {
    const airframe = demo.airframes.find(({ part }) => part.structure !== null)!
    const { structure } = airframe.part
    const change = (part: Partial<typeof airframe.part>) =>
      withList(
        demo,
        'airframes',
        demo.airframes.map((each) => (each === airframe ? { ...each, part: { ...each.part, ...part } } : each)),
      )
    const longer = change({
      structure: { ...structure!, wing: { ...structure!.wing, chord: structure!.wing.chord + 0.01 } },
    })
    const chord = Math.round(structure!.wing.chord * 1e4) / 10
    expect(wordsOf(demo, longer)).toEqual([
      `${airframe.name} changed: wing chord (structure) ${chord} → ${chord + 10} mm`,
    ])
    expect(wordsOf(demo, change({ structure: null, designSpeed: 60 }))[0]).toMatch(
      / changed: design speed not given → 216 km\/h, data of the structure given → not given$/,
    )
  })

  it('tell two parts of one name apart', () => {
    const [first, second] = demo.escs
    const escs = demo.escs.map((esc) => (esc === first || esc === second ? { ...esc, name: 'Twin', price: 5 } : esc))
    const named = demo.escs.map((esc) => (esc === first || esc === second ? { ...esc, name: 'Twin' } : esc))
    const words = wordsOf(withList(demo, 'escs', named), withList(demo, 'escs', escs))
    expect(words.map((sentence) => sentence.split(' is ')[0])).toEqual([
      `Twin (${first!.part.id})`,
      `Twin (${second!.part.id})`,
    ])
  })

  it('compare no prices across currencies', () => {
    const { version: _version, ...rest } = demo
    const b = sealCatalogue({ ...rest, currency: 'USD', motors: demo.motors.map((motor) => ({ ...motor, price: 99 })) })
    const diff = diffCatalogues(demo, b)
    expect(new Set(diff.parts.map(({ kind }) => kind))).toEqual(new Set(['changed']))
    expect(wordsOf(demo, b)[0]).toBe('the catalogue: currency EUR → USD')
  })

  it('write amounts as every other sentence does', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (amount) => amountWords(amount) === amountOf(amount)),
    )
  })

  it('are one sentence for every difference, in the order of kinds', () => {
    const order = ['new', 'gone', 'dearer', 'cheaper', 'changed']
    fc.assert(
      fc.property(edits, (edit) => {
        const diff = diffCatalogues(small, edit(small))
        const words = diffWords(diff, small.currency)
        expect(words).toHaveLength(diff.head.length + diff.parts.length)
        const told = words
          .slice(diff.head.length)
          .map((sentence) => order.findIndex((kind) => pattern(kind).test(sentence)))
        expect(told).toEqual(told.toSorted((a, b) => a - b))
        expect(told).not.toContain(-1)
      }),
      { numRuns: 60 },
    )
  })
})

const pattern = (kind: string): RegExp =>
  kind === 'new' || kind === 'gone'
    ? new RegExp(`^${kind}: .+, (was )?[\\d,.]+ [A-Z]{3}$`)
    : new RegExp(
        kind === 'changed'
          ? '^(?!.* [A-Z]{3} (dearer|cheaper) ).+ changed: .+ → '
          : `^.+ is [\\d,.]+ [A-Z]{3} ${kind} \\(`,
      )
