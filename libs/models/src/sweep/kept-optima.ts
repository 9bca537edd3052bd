// The best setups of the searches beside the front (near misses, relaxations), kept from one run to the next. How good a
// combination is depends on its own parts only, so after a change of catalogue the best of all is the best of what is new and
// of what stands:
// - The best before stands still: nothing else that stands is better, so only what is new need be compared with it.
// - There was none before: none that stands is one either.
// - It stands no more, but something new is no worse: then it is no worse than anything that stands. Ties go by number, and
//   what stands keeps its order, also against the heir of the best.
// - Else something that stands may be the best by now, and the whole is searched.
import type { ChangedCombinations } from './changed-combinations.js'

interface Numbered {
  readonly number: number
}

/** Best of each kind that a search looks for, null where there is none, by the name of the search. Plain data. */
export type KeptOptima = ReadonlyMap<string, readonly (Numbered | null)[]>

export interface OptimumSearch<Found> {
  /** Of two, which one is better. */
  isBefore(a: Found, b: Found): boolean
  /** The best of each kind among all combinations. */
  whole(): readonly (Found | null)[]
  /** Among those that changed and the known ones, which stand. */
  ofChanged(changed: ChangedCombinations, known: readonly (Found | null)[]): readonly (Found | null)[]
}

export class Optima {
  /** Found by searching the whole: what to keep. */
  readonly found = new Map<string, readonly (Numbered | null)[]>()
  readonly #kept: KeptOptima
  readonly #changedSince: () => ChangedCombinations | null
  #changed: ChangedCombinations | null | undefined

  /** @param changedSince what changed since the sweep they were kept of, null where too much did; asked once, if at all */
  constructor(kept: KeptOptima = new Map(), changedSince: () => ChangedCombinations | null = () => null) {
    this.#kept = kept
    this.#changedSince = changedSince
  }

  /**
   * The best of each kind.
   * @param name tells searches of one question apart: the same name, the same search
   */
  best<Found extends Numbered>(name: string, search: OptimumSearch<Found>): readonly (Found | null)[] {
    const settled = this.#settled(name, search)
    if (settled !== null) return settled
    const best = search.whole()
    this.found.set(name, best)
    return best
  }

  #settled<Found extends Numbered>(name: string, search: OptimumSearch<Found>): readonly (Found | null)[] | null {
    const kept = this.#kept.get(name) as readonly (Found | null)[] | undefined
    if (kept === undefined) return null
    if (this.#changed === undefined) this.#changed = this.#changedSince()
    return this.#changed === null ? null : settled(kept, this.#changed, search)
  }
}

/** null where what changed and what stands do not settle it. */
function settled<Found extends Numbered>(
  kept: readonly (Found | null)[],
  changed: ChangedCombinations,
  search: OptimumSearch<Found>,
): readonly (Found | null)[] | null {
  const heirs = kept.map((best) => (best === null ? null : { ...best, number: changed.heirOf(best.number) }))
  const known = heirs.map((heir, i) => (heir !== null && changed.stands(kept[i]?.number as number) ? heir : null))
  const found = search.ofChanged(changed, known)
  const isSettled = heirs.every((heir, i) => {
    const best = found[i] ?? null
    return heir === null || (best !== null && !search.isBefore(heir, best))
  })
  return isSettled ? found : null
}
