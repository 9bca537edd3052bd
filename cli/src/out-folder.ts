// A folder that files of an answer are written to. Judged before any work is done, so that nobody waits for an answer that
// cannot be kept; each file is written beside its name and then renamed, so a reader never sees half of one.
import { mkdir, rename, rm, stat, writeFile } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { UsageError } from './complaint.js'
import { reason } from './json-input.js'

/** @throws UsageError when the folder cannot be made or written to */
export async function openFolder(folder: string): Promise<void> {
  const trial = join(folder, `.ductwright.${process.pid}.part`)
  try {
    await makeFolder(folder)
    await writeFile(trial, '')
    await rm(trial)
  } catch (error) {
    throw new UsageError(`--out ${folder}: cannot be written: ${reason(error as NodeJS.ErrnoException)}`)
  }
}

/**
 * Writes files by their names below the folder, over those that are there.
 * @throws UsageError naming the file that cannot be written
 */
export async function writeInto(folder: string, files: ReadonlyMap<string, string | Uint8Array>): Promise<void> {
  for (const [name, content] of files) await writeWhole(join(folder, name), content)
}

async function writeWhole(path: string, content: string | Uint8Array): Promise<void> {
  const part = `${path}.${process.pid}.part`
  try {
    await makeFolder(dirname(path))
    await writeFile(part, content)
    await rename(part, path)
  } catch (error) {
    await rm(part, { force: true }).catch(() => {})
    throw new UsageError(`${path}: cannot be written: ${reason(error as NodeJS.ErrnoException)}`)
  }
}

/** With the folders above it. Node's own way of doing so never ends where a folder refuses to hold another, as in /proc. */
async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === 'EEXIST' && (await stat(folder)).isDirectory()) return
    const above = dirname(resolve(folder))
    if (code !== 'ENOENT' || above === resolve(folder)) throw error
    await makeFolder(above)
    await mkdir(folder)
  }
}
