// Numbers that look random but follow from a seed and a name alone, so a catalogue can be made again bit by bit.
// A 32-bit counter steps by 2³²/φ; each value is scrambled by two rounds of multiply and shift. Every part draws from a
// stream of its own name, so adding one part does not change the others. Not for secrets.

const STEP = 0x9e3779b9

export class RandomStream {
  #state: number

  constructor(seed: number, name: string) {
    if (!Number.isSafeInteger(seed) || seed < 0)
      throw new RangeError(`seed ${seed} must be a whole number from 0 to ${Number.MAX_SAFE_INTEGER}`)
    let state = scramble((seed >>> 0) ^ scramble(Math.floor(seed / 2 ** 32)))
    for (let i = 0; i < name.length; i++) state = scramble((state ^ name.charCodeAt(i)) + STEP)
    this.#state = state
  }

  /** From 0 up to but not 1. */
  share(): number {
    this.#state = (this.#state + STEP) >>> 0
    return scramble(this.#state) / 2 ** 32
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.share()
  }

  /** A value moved by up to ± `part` of itself. */
  around(value: number, part: number): number {
    return value * this.between(1 - part, 1 + part)
  }

  /** A whole number from `low` to `high`, both possible. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.share() * (high - low + 1))
  }

  pick<T>(list: readonly T[]): T {
    if (list.length === 0) throw new RangeError('pick from an empty list')
    return list[Math.floor(this.share() * list.length)]!
  }
}

function scramble(value: number): number {
  let x = value >>> 0
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d)
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b)
  return (x ^ (x >>> 16)) >>> 0
}
