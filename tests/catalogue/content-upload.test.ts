// The canonical JSON of a catalogue as an upload: anyone can hash anything, so a right version does not make wrong rows sound.

import { canonicalJson, sha256Hex } from '@ductwright/catalogue/canonical-json'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { catalogueContent, sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { generateCatalogue } from '@ductwright/catalogue/generate/generate-catalogue'
import { readCatalogue } from '@ductwright/catalogue/read-catalogue'
import { readContent } from '@ductwright/catalogue/read-content'
import { describe, expect, it } from 'vitest'
import { demoFiles, faultsIn } from './edit-tables.js'

const demo = readCatalogue(demoFiles)

/** Content with a right hash, whatever stands in it. */
function forged(change: (catalogue: Record<string, never>) => unknown): string {
  const copy = JSON.parse(catalogueContent(demo)) as Record<string, never>
  change(copy)
  const { version: _version, ...rest } = copy as Record<string, unknown>
  return canonicalJson({ ...rest, version: sha256Hex(canonicalJson(rest)) })
}

const faultsOf = (text: string) => faultsIn(() => readContent(text))

type Loose = { [list: string]: { [key: string]: unknown; part: { [key: string]: unknown } }[] }

describe('content', () => {
  it('comes back as the same catalogue', () => {
    expect(readContent(catalogueContent(demo))).toEqual(demo)
    for (const seed of [1, 2, 3, 4, 5]) {
      const made = generateCatalogue({ seed, fans: 9, motors: 12, escs: 9, packs: 12, airframes: 4 })
      expect(readContent(catalogueContent(made))).toEqual(made)
    }
  })

  it.each<readonly [string, (catalogue: Loose) => unknown, string, string]>([
    ['a name with a formula', (c) => (c['fans']![1]!['name'] = '=1+1'), '/fans/1/name', 'formula'],
    [
      'a name that hides its direction',
      (c) => (c['packs']![0]!['name'] = 'a\u202Eb'),
      '/packs/0/name',
      'control-character',
    ],
    ['a figure out of range', (c) => (c['motors']![2]!.part['mass'] = -1), '/motors/2/mass_g', 'range'],
    ['a figure that is text', (c) => (c['escs']![0]!.part['resistance'] = '0.005'), '/escs/0', 'shape'],
    ['a figure that is missing', (c) => delete c['packs']![0]!.part['capacity'], '/packs/0/capacity_mah', 'number'],
    ['a part that is missing', (c) => delete (c['escs']![0] as { part?: unknown }).part, '/escs/0', 'shape'],
    ['a list that is none', (c) => (c['motors'] = 'many' as never), '/motors', 'type'],
    ['a field no row has', (c) => (c['fans']![0]!['owner'] = 'x'), '/fans/0', 'shape'],
    ['a field no part has', (c) => (c['fans']![0]!.part['toString'] = 'x'), '/fans/0', 'shape'],
    [
      'a field behind every object',
      (c) => Object.defineProperty(c['fans']![0]!, '__proto__', { value: {}, enumerable: true }),
      '/fans/0',
      'shape',
    ],
    ['a field no catalogue has', (c) => (c['owner'] = [] as never), '/owner', 'unknown-field'],
    [
      'a measured drag area, which only a request has',
      (c) => (c['airframes']![0]!.part['dragBasis'] = 'measured'),
      '/airframes/0',
      'shape',
    ],
    [
      'half a control surface',
      (c) =>
        ((
          c['airframes']!.find(({ part }) => part['structure'] !== null)!.part['structure'] as { controls: unknown[] }
        ).controls.length = 1),
      '/airframes',
      'required',
    ],
    ['a second id', (c) => (c['fans']![1]!.part['id'] = c['fans']![0]!.part['id']), '/fans/1', 'duplicate-id'],
    ['no fans', (c) => (c['fans']!.length = 0), '', 'empty-table'],
    ['a set of nothing', (c) => (c['sets']![0]!['motorId'] = 'nothing'), '/sets/0/motor_id', 'unknown-part'],
    [
      'a fan no rotor behaves like',
      (c) => (c['fans']![0]!.part['psi1'] = 0.3),
      '/fans/0/pressure_rise_slope',
      'fan-gate',
    ],
    ['a date that is none', (c) => (c['dated'] = 'today' as never), '', 'format'],
    ['no receiver supply', (c) => delete c['receiverSupply'], '/receiverSupply', 'type'],
  ])('%s is refused although its hash is right', (_what, change, pointer, rule) => {
    const faults = faultsOf(forged(change as never))
    expect(
      faults.some((fault) => fault.rule === rule && (fault.pointer ?? '').startsWith(pointer)),
      JSON.stringify(faults.slice(0, 3)),
    ).toBe(true)
  })

  it('that was changed after it was hashed is refused', () => {
    const text = catalogueContent(demo).replace(/"price":\d+/, '"price":1')
    expect(faultsOf(text)).toEqual([expect.objectContaining({ rule: 'content' })])
  })

  it('lists of which are out of order is refused', () => {
    const turned = { ...demo, fans: demo.fans.toReversed() }
    const { version: _version, ...rest } = turned
    const sealed: Catalogue = sealCatalogue(rest)
    expect(faultsOf(canonicalJson({ ...sealed, fans: turned.fans, format: 'ductwright-catalogue/2' }))).toEqual([
      expect.objectContaining({ rule: 'content' }),
    ])
  })
})
