// Uploaded versions under a condition, the list of versions, and private layers: kept beside the shared versions, never
// current, never listed.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { accept, catalogueVersion } from '../samples.js'

const nobody = '00000000-0000-4000-8000-000000000000'

export function catalogueLayersSuite(records: () => OpenRecords): void {
  const upload = (version: string, expected: string | null) =>
    records().uploadCatalogue({ version, name: version, content: `content ${version}` }, expected)
  const layer = (name: string) =>
    records().addLayer({ name, content: `{"name":"${name}"}`, version: `hash of ${name}` })

  describe('uploaded catalogues', () => {
    it('are put only while the expected version is current', async () => {
      expect(await upload('u-a', null)).toBe(true)
      expect(await upload('u-b', 'u-a')).toBe(true)
      expect(await upload('u-c', 'u-a')).toBe(false)
      expect(await records().getCatalogue('u-c')).toBeNull()
      expect(await records().currentCatalogue()).toEqual({ version: 'u-b', content: 'content u-b' })
      expect(await upload('u-a', 'u-b')).toBe(true)
      expect(await records().currentCatalogue()).toMatchObject({ version: 'u-a' })
    })

    it('expecting the same version at once, one is put', async () => {
      await upload('u-race', null)
      const outcomes = await Promise.all(
        ['1', '2', '3', '4', '5', '6', '7', '8'].map((n) => upload(`u-race-${n}`, 'u-race')),
      )
      expect(outcomes.filter(Boolean)).toHaveLength(1)
    })

    it('are described and listed, newest first, each once', async () => {
      for (const n of ['1', '2', '3', '4', '5']) await upload(`u-list-${n}`, null)
      const found: string[] = []
      for (let after: string | null = null; ; ) {
        const page = await records().listCatalogues({ limit: 2, after })
        found.push(...page.rows.map(({ version }) => version))
        expect(page.rows.filter(({ current }) => current).length).toBeLessThanOrEqual(1)
        after = page.next
        if (after === null) break
      }
      expect(found.slice(0, 5)).toEqual(['u-list-5', 'u-list-4', 'u-list-3', 'u-list-2', 'u-list-1'])
      expect(new Set(found).size).toBe(found.length)
      expect(await records().describeCatalogue('u-list-5')).toMatchObject({
        name: 'u-list-5',
        origin: 'upload',
        bytes: 'content u-list-5'.length,
        current: true,
        createdAt: expect.stringMatching(/^\d{4}-.+\.\d{3}Z$/),
      })
      expect(await records().describeCatalogue('u-list-1')).toMatchObject({ current: false })
      expect(await records().describeCatalogue('nothing')).toBeNull()
      expect(await records().describeCatalogue('a\0b')).toBeNull()
      await expect(records().listCatalogues({ limit: 0, after: null })).rejects.toThrow(RangeError)
      await expect(records().listCatalogues({ limit: 1, after: 'x' })).rejects.toThrow(RangeError)
    })

    it('refuse other content under a version that is kept', async () => {
      await upload('u-fixed', null)
      await upload('u-next', null)
      await expect(
        records().uploadCatalogue({ version: 'u-fixed', name: 'x', content: 'other' }, null),
      ).rejects.toThrow(RangeError)
      expect(await records().currentCatalogue()).toMatchObject({ version: 'u-next' })
    })
  })

  describe('private layers', () => {
    it('are kept, replaced while they are what was read, and forgotten', async () => {
      const row = await layer('a')
      expect(await records().getLayer(row.id)).toEqual(row)
      const next = { name: 'b', content: '{"name":"b"}', version: 'hash of b' }
      expect(await records().changeLayer(row.id, next, 'another hash')).toBeNull()
      expect(await records().changeLayer(row.id, next, row.version)).toMatchObject({
        ...next,
        id: row.id,
        createdAt: row.createdAt,
      })
      expect(await records().deleteLayer(row.id)).toBe(true)
      expect(await records().deleteLayer(row.id)).toBe(false)
      expect(await records().getLayer(row.id)).toBeNull()
      for (const id of [nobody, 'x', 'a\0b']) {
        expect(await records().getLayer(id)).toBeNull()
        expect(await records().changeLayer(id, next, 'x')).toBeNull()
        expect(await records().deleteLayer(id)).toBe(false)
      }
    })

    it('make versions that are neither current nor listed nor described', async () => {
      await upload('l-shared', null)
      const { id } = await layer('versions')
      const version = { version: 'l-private', name: 'private', content: 'private content' }
      await records().keepLayeredCatalogue(version, id)
      await records().keepLayeredCatalogue(version, id)
      expect(await records().getCatalogue('l-private')).toBe('private content')
      expect(await records().currentCatalogue()).toMatchObject({ version: 'l-shared' })
      expect(await records().describeCatalogue('l-private')).toBeNull()
      const { rows } = await records().listCatalogues({ limit: 100, after: null })
      expect(rows.map((row) => row.version)).not.toContain('l-private')
      await expect(records().keepLayeredCatalogue({ ...version, content: 'other' }, id)).rejects.toThrow(RangeError)
    })

    it('make versions that go with them unless a run is pinned to one', async () => {
      const { id } = await layer('pinned')
      for (const version of ['l-loose', 'l-pinned'])
        await records().keepLayeredCatalogue({ version, name: version, content: version }, id)
      await accept(records(), { address: null, catalogueVersion: 'l-pinned' })
      expect(await records().deleteLayer(id)).toBe(true)
      expect(await records().getCatalogue('l-loose')).toBeNull()
      expect(await records().getCatalogue('l-pinned')).toBe('l-pinned')
      expect(await records().describeCatalogue('l-pinned')).toBeNull()
    })

    it('stay out of the way of a shared version with the same content', async () => {
      const { id } = await layer('same')
      await upload('l-both', null)
      await records().keepLayeredCatalogue({ version: 'l-both', name: 'x', content: 'content l-both' }, id)
      expect(await records().describeCatalogue('l-both')).toMatchObject({ origin: 'upload', current: true })
      await records().keepLayeredCatalogue({ version: 'l-turned', name: 'x', content: 'content l-turned' }, id)
      await upload('l-turned', null)
      expect(await records().currentCatalogue()).toMatchObject({ version: 'l-turned' })
      await records().deleteLayer(id)
      expect(await records().getCatalogue('l-turned')).toBe('content l-turned')
      await records().putCatalogue(catalogueVersion, 'invented', '{"fans":[]}')
    })
  })
}
