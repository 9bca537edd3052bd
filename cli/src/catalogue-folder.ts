// The catalogue a command works with: the folder of tables, or the JSON file of one version, named on the command line; else
// the demonstration one.
import { readFile, stat } from 'node:fs/promises'
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { CatalogueError } from '@ductwright/catalogue/catalogue-fault'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { readCatalogueJson } from '@ductwright/catalogue/read-upload'
import { sizeFaults } from '@ductwright/catalogue/upload-limits'
import { UsageError } from './complaint.js'
import { reason } from './json-input.js'

/** `--catalogue` of a command; undefined: not given. */
export async function catalogueFrom(path: string | undefined): Promise<Catalogue> {
  return path === undefined ? readCatalogueFolder(demoCatalogueFolder) : catalogueAt(path, `--catalogue ${path}`)
}

/** The catalogue at a path. `named`: what to call it in a complaint. */
export async function catalogueAt(path: string, named: string = path): Promise<Catalogue> {
  try {
    return (await stat(path)).isFile() ? await readFileJson(path, named) : await readCatalogueFolder(path)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === undefined) throw error
    throw new UsageError(`${named}: cannot be read: ${reason(error as NodeJS.ErrnoException)}`)
  }
}

async function readFileJson(path: string, named: string): Promise<Catalogue> {
  const large = sizeFaults({ [path]: (await stat(path)).size })
  if (large.length > 0) throw new CatalogueError(large)
  return readCatalogueJson(parsed(await readFile(path, 'utf8'), named))
}

function parsed(text: string, named: string): unknown {
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new UsageError(`${named}: not JSON: ${(error as Error).message}`)
  }
}
