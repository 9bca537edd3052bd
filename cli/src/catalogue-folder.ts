// The catalogue a command works with: the folder named on the command line, or the demonstration one.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { UsageError } from './complaint.js'
import { reason } from './json-input.js'

export async function catalogueFrom(folder: string | undefined): Promise<Catalogue> {
  try {
    return await readCatalogueFolder(folder ?? demoCatalogueFolder)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === undefined || folder === undefined) throw error
    throw new UsageError(`--catalogue ${folder}: cannot be read: ${reason(error as NodeJS.ErrnoException)}`)
  }
}
