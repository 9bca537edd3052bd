// One process at a time on a data folder, and no lock left behind by a dead one.

import { mkdtemp, readFile, rm, symlink, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { lockFolder } from '@ductwright/records/embedded/folder-lock'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { Child } from './child-process.js'

describe('the lock of a data folder', () => {
  let folder: string
  const children: Child[] = []
  const start = (path = folder) => {
    const child = new Child('hold-folder.mjs', [path])
    children.push(child)
    return child
  }
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'ductwright-lock-'))
  })
  afterEach(async () => {
    for (const child of children.splice(0)) await child.kill()
    await rm(folder, { recursive: true, force: true })
  })

  it('refuses a second process, naming the folder and the holder', async () => {
    const holder = start()
    await holder.hasSaid(1)
    expect(holder.lines).toEqual(['locked'])
    const second = start()
    await second.ended
    expect(second.lines[0]).toMatch(/^refused FolderInUse/)
    expect(second.lines[0]).toContain(folder)
    expect(second.lines[0]).toContain(`process ${holder.pid}:`)
  })

  it('refuses the same process, and the same folder under another name', async () => {
    const lock = await lockFolder(folder)
    const link = `${folder}-link`
    await symlink(folder, link)
    await expect(lockFolder(folder)).rejects.toThrow(`in use by process ${process.pid}`)
    await expect(lockFolder(link)).rejects.toThrow(`data folder ${link} is in use`)
    await lock.release()
    await rm(link)
    const again = await lockFolder(folder)
    await again.release()
  })

  it('lets one of several simultaneous starters in', async () => {
    const starters = Array.from({ length: 6 }, () => start())
    await Promise.all(starters.map((starter) => starter.hasSaid(1)))
    const said = starters.map((starter) => starter.lines[0]?.split(' ')[0])
    expect(said.filter((word) => word === 'locked')).toHaveLength(1)
    expect(said.filter((word) => word === 'refused')).toHaveLength(5)
  })

  it('is free after the holder let go, and after it was killed', async () => {
    const polite = start()
    await polite.hasSaid(1)
    polite.tell('let go\n')
    await polite.ended
    const killed = start()
    await killed.hasSaid(1)
    expect(killed.lines).toEqual(['locked'])
    await killed.kill()
    const last = start()
    await last.hasSaid(1)
    expect(last.lines).toEqual(['locked'])
    expect(JSON.parse(await readFile(join(folder, 'in-use.json'), 'utf8'))).toMatchObject({ pid: last.pid })
  })

  it('refuses while another host refreshes the holder file, and takes over when it is stale or cut short', async () => {
    const file = join(folder, 'in-use.json')
    await writeFile(file, JSON.stringify({ pid: 7, host: 'some-other-container', since: '2026-01-01T00:00:00Z' }))
    await expect(lockFolder(folder)).rejects.toThrow(/in use by process 7 on host some-other-container/)
    const past = new Date(Date.now() - 60_000)
    await utimes(file, past, past)
    await (await lockFolder(folder)).release()
    await writeFile(file, '{"pid":7,"ho')
    await (await lockFolder(folder)).release()
  })
})
