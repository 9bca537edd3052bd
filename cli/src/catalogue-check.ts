// `catalogue check`: reads a catalogue folder and prints every fault at once, one a line, or what the catalogue holds.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { PRICE_AGE_DAYS, priceWarnings } from '@ductwright/catalogue/stale-prices'
import { Command } from 'commander'
import { catalogueDiffCommand } from './catalogue-diff.js'
import { catalogueAt } from './catalogue-folder.js'

export function catalogueCommand(): Command {
  const check = new Command('check')
    .description('Check a catalogue folder; every fault is printed as file:line column rule value.')
    .argument('<folder>', 'folder with the tables of a catalogue, or JSON file of one version')
    .action(async (folder: string) => {
      process.stdout.write(summary(await catalogueAt(folder)))
    })
  return new Command('catalogue')
    .description('Work with a catalogue of parts.')
    .addCommand(check)
    .addCommand(catalogueDiffCommand())
}

function summary(catalogue: Catalogue): string {
  const counts = [
    `${catalogue.fans.length} fans`,
    `${catalogue.motors.length} motors`,
    `${catalogue.escs.length} speed controllers`,
    `${catalogue.packs.length} packs`,
    `${catalogue.sets.length} sets`,
    `${catalogue.airframes.length} airframes`,
  ]
  return [
    `${catalogue.name}: no faults.`,
    `${counts.join(', ')}; prices in ${catalogue.currency} of ${catalogue.dated}.`,
    ...priceWarnings(catalogue, { day: catalogue.dated, days: PRICE_AGE_DAYS }),
    `Version ${catalogue.version}`,
    '',
  ].join('\n')
}
