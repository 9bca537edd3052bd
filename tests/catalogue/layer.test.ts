// Own parts over the shared catalogue: they are there beside the shared ones under a version of their own, a bench fit becomes
// a fan, and what does not go together is refused.

import { readFileSync } from 'node:fs'
import { catalogueContent, catalogueFromContent } from '@ductwright/catalogue/catalogue-content'
import { packCells } from '@ductwright/catalogue/cells/pack-cells'
import { diffCatalogues } from '@ductwright/catalogue/diff/catalogue-diff'
import { layered } from '@ductwright/catalogue/layer/catalogue-layer'
import { layerFromContent, readLayer } from '@ductwright/catalogue/layer/read-layer'
import { patchedCatalogue } from '@ductwright/catalogue/patch/read-patch'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { parseBench } from '@ductwright/contract/bench-request'
import { fitBench } from '@ductwright/pipeline/fit-bench'
import { describe, expect, it } from 'vitest'
import { demoFiles, faultsIn } from './edit-tables.js'

const demo = readCatalogue(demoFiles)
const like = demo.fans.find(({ part }) => part.id === demo.sets[0]!.fanId)!
const own = { like: like.part.id, id: 'own-fan', name: 'Measured on the bench', mass_g: 300 }
const parts = { name: 'Bench of Anna', rows: { fans: [own] } }

const over = (json: unknown) => layered(demo, readLayer(json, demo).layer)

const faultsOf = (json: unknown) => faultsIn(() => readLayer(json, demo))

describe('own parts', () => {
  it('stand beside the shared ones, under a version and a name of their own', () => {
    const both = over(parts)
    expect(both.name).toBe(`${demo.name} with Bench of Anna`)
    expect(both.version).not.toBe(demo.version)
    expect(diffCatalogues(demo, both).parts.map(({ kind, id }) => [kind, id])).toEqual([['new', 'own-fan']])
    expect(catalogueFromContent(catalogueContent(both))).toEqual(both)
    expect(over(parts)).toEqual(both)
  })

  it('that are like a shared fan take what they do not say from it', () => {
    const fan = over(parts).fans.find(({ part }) => part.id === 'own-fan')!
    expect(fan).toEqual({ ...like, name: own.name, part: { ...like.part, id: 'own-fan', mass: 0.3 } })
  })

  it('keep what they took when the shared fan changes or goes', () => {
    const { content, version } = readLayer(parts, demo)
    const later = patchedCatalogue(demo, { prices: { [like.part.id]: 1 } })
    const fan = layered(later, layerFromContent(content, later)).fans.find(({ part }) => part.id === 'own-fan')
    expect(fan?.price).toBe(like.price)
    expect(readLayer(JSON.parse(JSON.stringify(parts)), demo)).toMatchObject({ content, version })
  })

  it('may be a set of an own fan and a shared motor', () => {
    const { motorId } = demo.sets[0]!
    const set = {
      id: 'own-set',
      maker: 'Anna',
      name: 'Own set',
      fan_id: 'own-fan',
      motor_id: motorId,
      mass_g: 400,
      price: 0,
    }
    expect(over({ ...parts, rows: { ...parts.rows, sets: [set] } }).sets.map(({ id }) => id)).toContain('own-set')
  })

  it('that are none leave the shared catalogue itself', () => {
    expect(over({ name: 'Nothing yet' })).toBe(demo)
  })

  it('hold a fan fitted from measurements', () => {
    const example = new URL('../../examples/bench-points.json', import.meta.url)
    const report = fitBench(parseBench(JSON.parse(readFileSync(example, 'utf8'))), demo)
    expect(report.row).not.toBeNull()
    const fan = { like: report.fan.id, id: 'own-fitted', name: 'Fitted', ...report.row }
    const both = over({ name: 'Bench', rows: { fans: [fan] } })
    const found = both.fans.find(({ part }) => part.id === 'own-fitted')!
    expect(found.part.psi0).toBe(report.row!.pressure_rise_at_zero_flow)
    expect(found.part.psi1).toBe(report.row!.pressure_rise_slope)
    expect(found.part.etaPeak).toBeCloseTo(report.row!.peak_efficiency_percent / 100, 12)
  })
})

describe('refused', () => {
  it.each<readonly [string, unknown, string, string]>([
    [
      'an id that a shared part has',
      { rows: { fans: [{ ...own, id: like.part.id }] } },
      '/rows/fans/0/id',
      'shared-id',
    ],
    ['a fan like none', { rows: { fans: [{ ...own, like: 'fan-nowhere' }] } }, '/rows/fans/0/like', 'unknown-part'],
    [
      'another part like a shared one',
      { rows: { packs: [{ like: demo.packs[0]!.part.id, id: 'own' }] } },
      '/rows/packs/0/like',
      'unknown-column',
    ],
    [
      'a fan no rotor behaves like',
      { rows: { fans: [{ ...own, pressure_rise_slope: 0.3 }] } },
      '/rows/fans/0/pressure_rise_slope',
      'fan-gate',
    ],
    ['an own id twice', { rows: { fans: [own, own] } }, '/rows/fans/1', 'duplicate-id'],
    ['a formula for a name', { name: '=x' }, '/name', 'formula'],
    ['no name', { name: undefined }, '/name', 'text'],
    ['something else', { owner: 'Anna' }, '/owner', 'unknown-field'],
    [
      'a set of nothing',
      { rows: { sets: [{ id: 'own-set', maker: 'A', name: 'B', fan_id: 'x', motor_id: 'y', mass_g: 100, price: 1 }] } },
      '/rows/sets/0/fan_id',
      'unknown-part',
    ],
    [
      'more than one owner has',
      {
        rows: {
          packs: Array.from({ length: 501 }, (_, i) => ({
            ...packCells(demo.packs[0]!),
            priced: undefined,
            id: `own-${i}`,
          })),
        },
      },
      '/rows',
      'rows',
    ],
  ])('%s', (_what, change, pointer, rule) => {
    const faults = faultsOf({ ...parts, ...(change as object) })
    expect(faults.map((fault) => [fault.pointer, fault.rule])).toContainEqual([pointer, rule])
  })

  it('parts kept in another currency', () => {
    const { content } = readLayer(parts, demo)
    const { version: _version, ...rest } = demo
    expect(() => layerFromContent(content, { ...rest, version: '', currency: 'USD' })).toThrow(/\[currency\]/)
  })
})
