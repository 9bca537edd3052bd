// A consistent invented catalogue of any size from a seed, read through the same door as every other catalogue.
import type { Catalogue } from '../catalogue.js'
import { readCatalogue } from '../read-catalogue.js'
import { catalogueFiles } from './catalogue-files.js'
import { type GenerateOptions, randomPlan } from './random-plan.js'

export type { GenerateOptions } from './random-plan.js'

/** File name → CSV text of a generated catalogue. */
export function generateFiles(options: GenerateOptions): Record<string, string> {
  return catalogueFiles(randomPlan(options))
}

/** @throws RangeError when a count or the seed is out of range */
export function generateCatalogue(options: GenerateOptions): Catalogue {
  return readCatalogue(generateFiles(options))
}
