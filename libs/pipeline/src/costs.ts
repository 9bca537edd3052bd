// What parts cost and weigh for one owner: owned parts cost nothing, missing ones their price, and a fan with its motor
// the cheapest cover of what is missing, sets included. A pair that is sold as a set weighs what the fitted set weighs.
import type { Catalogue, Listed, ListedTreatment, PartSet } from '@ductwright/catalogue/catalogue'
import type { PurchaseLine } from '@ductwright/contract/result'
import type { Esc } from '@ductwright/models/esc/esc'
import type { Fan } from '@ductwright/models/fan/fan'
import type { Motor } from '@ductwright/models/motor/motor'
import type { Pack } from '@ductwright/models/pack/pack'

/** Owned counts by id; an owned set counts as one fan and one motor. */
export type Owned = ReadonlyMap<string, number>

export function ownedCounts(
  owned: readonly { readonly id: string; readonly count: number }[],
  catalogue: Catalogue,
): Owned {
  const counts = new Map<string, number>()
  const add = (id: string, count: number): void => void counts.set(id, (counts.get(id) ?? 0) + count)
  for (const { id, count } of owned) {
    const set = catalogue.sets.find((candidate) => candidate.id === id)
    if (set === undefined) add(id, count)
    else {
      add(set.fanId, count)
      add(set.motorId, count)
    }
  }
  return counts
}

/** Prices and masses of one owner's choices. `sets` are those that may be bought. */
export class PriceList {
  readonly #catalogue: Catalogue
  readonly #owned: Owned
  readonly #sets = new Map<string, PartSet>()

  constructor(catalogue: Catalogue, owned: Owned, excluded: ReadonlySet<string>) {
    this.#catalogue = catalogue
    this.#owned = owned
    for (const set of catalogue.sets) {
      if (excluded.has(set.id)) continue
      const key = pairKey(set.fanId, set.motorId)
      const known = this.#sets.get(key)
      if (known === undefined || set.price < known.price) this.#sets.set(key, set)
    }
  }

  pairMass(fan: Fan, motor: Motor): number {
    return this.#sets.get(pairKey(fan.id, motor.id))?.mass ?? fan.mass + motor.mass
  }

  escMass(esc: Esc): number {
    return esc.mass + (esc.receiverSupplyCurrent > 0 ? 0 : this.#catalogue.receiverSupply.mass)
  }

  pairLines(fan: Listed<Fan>, motor: Listed<Motor>): PurchaseLine[] {
    const apart = [this.#line('fan', fan, 1), this.#line('motor', motor, 1)]
    const set = this.#sets.get(pairKey(fan.part.id, motor.part.id))
    if (set === undefined || total(apart) <= set.price) return apart
    return [line('set', set.id, `${set.maker} ${set.name}`, 1, 0, set.price)]
  }

  escLines(esc: Listed<Esc>): PurchaseLine[] {
    const { receiverSupply } = this.#catalogue
    const own = this.#line('esc', esc, 1)
    if (esc.part.receiverSupplyCurrent > 0) return [own]
    const owned = this.#owned.get(receiverSupply.id) ?? 0
    return [own, line('receiver-supply', receiverSupply.id, receiverSupply.name, 1, owned, receiverSupply.price)]
  }

  packLines(pack: Listed<Pack>, count: number): PurchaseLine[] {
    return [this.#line('pack', pack, count)]
  }

  treatmentLines(treatments: readonly ListedTreatment[]): PurchaseLine[] {
    return treatments.map(({ kind, name, price }) => line('treatment', kind, name, 1, 0, price))
  }

  /** Everything at its price, nothing owned; sets where they are cheaper. */
  replacementCost(fan: Listed<Fan>, motor: Listed<Motor>, esc: Listed<Esc>, pack: Listed<Pack>, packs: number): number {
    const nothing = new PriceList(this.#catalogue, new Map(), new Set())
    return total([...nothing.pairLines(fan, motor), ...nothing.escLines(esc), ...nothing.packLines(pack, packs)])
  }

  #line(role: PurchaseLine['role'], listed: Listed<{ readonly id: string }>, count: number): PurchaseLine {
    const { id } = listed.part
    return line(role, id, `${listed.maker} ${listed.name}`, count, this.#owned.get(id) ?? 0, listed.price)
  }
}

export function total(lines: readonly PurchaseLine[]): number {
  return cents(lines.reduce((sum, { price }) => sum + price, 0))
}

function line(
  role: PurchaseLine['role'],
  id: string,
  name: string,
  count: number,
  owned: number,
  each: number,
): PurchaseLine {
  const used = Math.min(count, owned)
  const buy = count - used
  return { id, name, role, count, owned: used, buy, price_each: each, price: cents(buy * each) }
}

/** Money in whole cents, so that sums of prices are exact however they were added. */
export function cents(amount: number): number {
  return Math.round(amount * 100) / 100
}

function pairKey(fanId: string, motorId: string): string {
  return `${fanId} ${motorId}`
}
