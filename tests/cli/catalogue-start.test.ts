// The catalogue a service starts with: a newer demonstration catalogue takes the place of an older one that the program put
// there itself, and never of one that was sent.
import { catalogueContent } from '@ductwright/catalogue/catalogue-content'
import { patchedCatalogue } from '@ductwright/catalogue/patch/read-patch'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { type OpenRecords, openRecords } from '@ductwright/records/open-records'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { currentOrDemo } from '../../cli/dist/catalogue-start.js'
import { freshDataFolder } from '../servers/embedded-folder.js'

const demo = await readCatalogueFolder(demoCatalogueFolder)
const edited = patchedCatalogue(demo, { prices: { [demo.fans[0]!.part.id]: 1 } })
const next = { version: edited.version, name: edited.name, content: catalogueContent(edited) }

let folder: Awaited<ReturnType<typeof freshDataFolder>>
let records: OpenRecords

beforeAll(async () => {
  folder = await freshDataFolder()
  records = await openRecords({ dataFolder: folder.path })
})

afterAll(async () => {
  await records.close()
  await folder.remove()
})

const current = async () => (await records.currentCatalogue())?.version

it('is the demonstration catalogue where there is none', async () => {
  await currentOrDemo(records, null)
  expect(await current()).toBe(demo.version)
})

it('is the newer demonstration catalogue where the program had put an older one', async () => {
  await records.putCatalogue(next.version, next.name, next.content)
  await currentOrDemo(records, null)
  expect(await current()).toBe(demo.version)
})

it('stays what was sent, although it has the name of the demonstration catalogue', async () => {
  expect(await current()).toBe(demo.version)
  expect(await records.uploadCatalogue(next, demo.version)).toBe(true)
  await currentOrDemo(records, null)
  expect(await current()).toBe(edited.version)
})

it('is that of the folder named, whatever was sent', async () => {
  await records.uploadCatalogue(next, null)
  await currentOrDemo(records, demoCatalogueFolder)
  expect(await current()).toBe(demo.version)
})
