// The promise of the embedded store: what was acknowledged survives the death of the process at any moment.

import { openRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { freshDataFolder } from '../servers/embedded-folder.js'
import { Child } from './child-process.js'
import { accept, catalogueVersion, planned } from './samples.js'

/** Kills in the middle of the load, after so many acknowledgements and a moment more. */
const rounds = [
  { acknowledged: 1, thenMs: 0 },
  { acknowledged: 20, thenMs: 3 },
  { acknowledged: 45, thenMs: 7 },
  { acknowledged: 8, thenMs: 11 },
]

describe('an embedded store', () => {
  it('has every acknowledged request after several kill -9 under load, and takes new ones', {
    timeout: 240_000,
  }, async () => {
    const folder = await freshDataFolder()
    const acknowledged: string[] = []
    for (const { acknowledged: count, thenMs } of rounds) {
      const child = new Child('accept-loop.mjs', [folder.path, catalogueVersion])
      await child.hasSaid(count)
      await new Promise((resolve) => setTimeout(resolve, thenMs))
      await child.kill()
      acknowledged.push(...child.lines)
    }
    const records = await openRecords({ dataFolder: folder.path })
    const lost: string[] = []
    for (const id of acknowledged) if ((await records.getRequest(id)) === null) lost.push(id)
    expect(lost).toEqual([])
    const unplanned = new Set((await records.unfinished()).unplanned)
    expect(unplanned.size).toBeGreaterThanOrEqual(acknowledged.length)
    expect((await accept(records)).state).toBe('accepted')
    await records.close()
    await folder.remove()
  })

  it('refuses a second opening while it is open, and opens again with its rows after closing', async () => {
    const folder = await freshDataFolder()
    const first = await openRecords({ dataFolder: folder.path })
    await first.putCatalogue(catalogueVersion, 'invented', '{}')
    const request = await planned(first)
    await expect(openRecords({ dataFolder: folder.path })).rejects.toThrow(/is in use by process/)
    await first.ping()
    await first.close()
    await first.close()
    await expect(first.ping()).rejects.toThrow()
    const second = await openRecords({ dataFolder: folder.path })
    expect(await second.getRequest(request.id)).toMatchObject({ id: request.id, state: 'running' })
    await second.close()
    await folder.remove()
  })
})
