// A corner of the demonstration catalogue that answers in a moment, and requests about it: one composite jet, fans of
// two sizes, a few motors, controllers and packs, and one set.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'
import { InputError } from '@ductwright/contract/fault'
import { parseRequest } from '@ductwright/contract/parse-request'
import type { Result } from '@ductwright/contract/result'
import { answer } from '@ductwright/pipeline/answer'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import { evaluateShard, planShards } from '@ductwright/pipeline/shards'

export const quiet = { progress() {}, cancelled: () => false }

const FANS = ['fan-corune-90-8', 'fan-skarv-105-7', 'fan-solenne-105-9']
const MOTORS = ['motor-isarn-4587-820', 'motor-isarn-4587-870', 'motor-torva-3771-1080', 'motor-torva-4482-820']
const ESCS = ['esc-bollard-200', 'esc-regula-s-200', 'esc-strom-hv-160']
const PACKS = ['pack-ambra-6s-5000', 'pack-harlin-6s-4000', 'pack-sarvik-5s-5000']
export const SET = 'set-skarv-105-7-isarn-4587-870'

export async function workshop(): Promise<Catalogue> {
  const { version: _, ...demo } = await readCatalogueFolder(demoCatalogueFolder)
  const among = (ids: readonly string[]) => (entry: { readonly part: { readonly id: string } }) =>
    ids.includes(entry.part.id)
  const corner = sealCatalogue({
    ...demo,
    name: 'Corner of the demonstration catalogue',
    fans: demo.fans.filter(among(FANS)),
    motors: demo.motors.filter(among(MOTORS)),
    escs: demo.escs.filter(among(ESCS)),
    packs: demo.packs.filter(among(PACKS)),
    sets: demo.sets.filter(({ id }) => id === SET),
  })
  const counts = [corner.fans.length, corner.motors.length, corner.escs.length, corner.packs.length, corner.sets.length]
  if (counts.join() !== '3,4,3,3,1') throw new Error(`parts of these tests are missing from the catalogue: ${counts}`)
  return corner
}

export const present = {
  fan: 'fan-corune-90-8',
  motor: 'motor-torva-3771-1080',
  esc: 'esc-strom-hv-160',
  timing_deg: 15,
  pack: 'pack-sarvik-5s-5000',
  arrangement: 'series',
  nozzle_ratio: 0.88,
  duty: 1,
}

export function requestOf(changes: Record<string, unknown> = {}): Record<string, unknown> {
  return {
    target: { speed_km_h: 320 },
    airframe: { id: 'airframe-vintra-90' },
    profile: { flight_time_min: 4 },
    sweep: { duties: [0.8, 0.9, 1], nozzle_ratios: [0.8, 0.84] },
    ...changes,
  }
}

export function prepared(catalogue: Catalogue, changes: Record<string, unknown> = {}): Prepared {
  return prepare(parseRequest(requestOf(changes)), catalogue)
}

export function answered(ready: Prepared): Result {
  return answer(
    ready,
    planShards(ready).map((range) => evaluateShard(ready, range, quiet)),
  )
}

/** Faults of a call that must be refused. */
export function faultsOf(act: () => unknown) {
  try {
    act()
  } catch (error) {
    if (error instanceof InputError) return error.faults
    throw error
  }
  throw new Error('nothing was refused')
}
