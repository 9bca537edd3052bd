// Catalogue versions: immutable, and the one put last is current.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { catalogueVersion, hash } from '../samples.js'

export function cataloguesSuite(records: () => OpenRecords): void {
  describe('catalogue versions', () => {
    it('gives a kept version back, byte for byte, and null for an unknown one', async () => {
      const content = '{"name":"Impeller ½ \\u0000","n":1e9}'
      await records().putCatalogue(hash(content), 'b', content)
      expect(await records().getCatalogue(hash(content))).toBe(content)
      expect(await records().getCatalogue('none')).toBeNull()
      expect(await records().getCatalogue('with a \0')).toBeNull()
    })

    it('makes the version put last the current one, also when it had been kept before', async () => {
      await records().putCatalogue('v-a', 'a', 'content a')
      await records().putCatalogue('v-b', 'b', 'content b')
      expect(await records().currentCatalogue()).toEqual({ version: 'v-b', content: 'content b' })
      await records().putCatalogue('v-a', 'a', 'content a')
      expect(await records().currentCatalogue()).toEqual({ version: 'v-a', content: 'content a' })
    })

    it('refuses other content under a version that is kept already', async () => {
      await records().putCatalogue('v-fixed', 'a', 'first')
      await expect(records().putCatalogue('v-fixed', 'a', 'second')).rejects.toThrow(/version: v-fixed is kept already/)
      expect(await records().getCatalogue('v-fixed')).toBe('first')
    })

    it('keeps many simultaneous puts of one version as one', async () => {
      await Promise.all(Array.from({ length: 20 }, () => records().putCatalogue('v-many', 'm', 'same')))
      const { rows } = await records().pool.query(
        "select count(*)::int as n from ductwright.catalogue_versions where version = 'v-many'",
      )
      expect(rows).toEqual([{ n: 1 }])
      await records().putCatalogue(catalogueVersion, 'invented', '{"fans":[]}')
    })
  })
}
