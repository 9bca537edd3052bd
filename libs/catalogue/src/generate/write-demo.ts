// Writes the demonstration catalogue into libs/catalogue/data, the same bytes each time:
// node libs/catalogue/dist/generate/write-demo.js
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { demoCatalogueFolder, readCatalogue } from '../read-catalogue.js'
import { catalogueFiles } from './catalogue-files.js'
import { demoPlan } from './demo-plan.js'

const files = catalogueFiles(demoPlan)
const catalogue = readCatalogue(files)
for (const [name, text] of Object.entries(files)) await writeFile(join(demoCatalogueFolder, name), text)
console.log(
  `${catalogue.fans.length} fans, ${catalogue.motors.length} motors, ${catalogue.escs.length} speed controllers, ` +
    `${catalogue.packs.length} packs, ${catalogue.airframes.length} airframes, ${catalogue.sets.length} sets; version ${catalogue.version}`,
)
