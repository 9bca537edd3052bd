// A few parts of the demonstration catalogue, so that a whole sweep takes a moment; and requests that fit it.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { sealCatalogue } from '@ductwright/catalogue/catalogue-content'
import { demoCatalogueFolder, readCatalogueFolder } from '@ductwright/catalogue/read-catalogue'

/** Parts of one size, so that most of them fit each other and the airframes that take it. */
export async function smallCatalogue(): Promise<Catalogue> {
  const { version: _version, ...whole } = await readCatalogueFolder(demoCatalogueFolder)
  const fans = whole.fans.filter(({ part }) => part.tipDiameter > 0.085 && part.tipDiameter < 0.0905).slice(0, 3)
  const ids = new Set(fans.map(({ part }) => part.id))
  const motors = whole.motors.filter(({ part }) => part.canDiameter > 0.034 && part.canDiameter < 0.045).slice(0, 6)
  const motorIds = new Set(motors.map(({ part }) => part.id))
  return sealCatalogue({
    ...whole,
    name: 'Small catalogue of the tests',
    fans,
    motors,
    escs: whole.escs.filter(({ part }) => part.currentLimit >= 100).slice(0, 4),
    packs: whole.packs.filter(({ part }) => part.cells >= 5 && part.capacity >= 3600 * 3).slice(0, 6),
    sets: whole.sets.filter((set) => ids.has(set.fanId) && motorIds.has(set.motorId)),
  })
}

export function smallRequest(catalogue: Catalogue, changes: Record<string, unknown> = {}): Record<string, unknown> {
  const fan = catalogue.fans[0]?.part
  const airframe = catalogue.airframes.find(
    ({ part }) => fan !== undefined && part.fanDiameterMin <= fan.tipDiameter && part.fanDiameterMax >= fan.tipDiameter,
  )
  return {
    title: 'A small sweep',
    address: 'pilot@example.org',
    target: { speed_km_h: 200 },
    airframe: { id: airframe?.part.id },
    profile: { flight_time_min: 2 },
    sweep: { duties: [0.7, 0.85, 1], nozzle_ratios: [0.84, 0.9] },
    ...changes,
  }
}
