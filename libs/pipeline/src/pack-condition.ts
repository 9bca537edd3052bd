// Packs at hand as they are, not as listed: the resistance that their owner measured, or what charges and discharges have
// done to them. A pack that is owned stands in its condition wherever it is used, also beside a new one of the same kind:
// the worse of two packs decides.
// Assumed: a pack loses 0.07 % of its charge and gains 0.25 % of resistance with every cycle; a measured resistance counts
// as it is.
import type { Catalogue, ListedPack } from '@ductwright/catalogue/catalogue'
import type { OwnedPart } from '@ductwright/contract/request'
import { believableCurrent } from '@ductwright/models/pack/believable-rate'
import type { Pack } from '@ductwright/models/pack/pack'

const CHARGE_LOST_PER_CYCLE = 0.0007
const RESISTANCE_GAINED_PER_CYCLE = 0.0025
/** A pack in use keeps at least this share of its charge; below it is a wreck. */
const LEAST_CHARGE = 0.5

/** The catalogue with the packs of an owner in the condition they are in. Same version: what is listed does not change. */
export function withPackConditions(catalogue: Catalogue, owned: readonly OwnedPart[]): Catalogue {
  const known = new Map(owned.filter(isConditioned).map((part) => [part.id, part]))
  if (known.size === 0) return catalogue
  const packs = catalogue.packs.map((listed): ListedPack => {
    const part = known.get(listed.part.id)
    return part === undefined ? listed : { ...listed, part: inCondition(listed.part, part) }
  })
  return { ...catalogue, packs }
}

/** Whether the resistance of a pack was measured by its owner. */
export function isMeasured(id: string, owned: readonly OwnedPart[]): boolean {
  return owned.some((part) => part.id === id && part.cellResistance !== null)
}

function isConditioned(part: OwnedPart): boolean {
  return part.cellResistance !== null || part.cycles !== null
}

function inCondition(pack: Pack, { cellResistance, cycles }: OwnedPart): Pack {
  const flown = cycles ?? 0
  const resistance = cellResistance ?? pack.cellResistance * (1 + RESISTANCE_GAINED_PER_CYCLE * flown)
  // What a cell can give falls as its resistance rises, and never exceeds what is listed.
  const believable = Math.min(1, believableCurrent(resistance) / believableCurrent(pack.cellResistance))
  return {
    ...pack,
    cellResistance: resistance,
    capacity: pack.capacity * Math.max(LEAST_CHARGE, 1 - CHARGE_LOST_PER_CYCLE * flown),
    continuousCurrent: pack.continuousCurrent * believable,
    currentLimit: pack.currentLimit * believable,
  }
}
