// Times the stages of a piece of work for its receipt.

export interface Stage {
  readonly stage: string
  readonly seconds: number
}

export class StageClock {
  readonly started = new Date().toISOString()
  readonly #begun = performance.now()
  readonly #stages: Stage[] = []

  get stages(): readonly Stage[] {
    return this.#stages
  }

  get seconds(): number {
    return secondsSince(this.#begun)
  }

  timed<Value>(stage: string, work: () => Value): Value {
    const begun = performance.now()
    try {
      return work()
    } finally {
      this.#stages.push({ stage, seconds: secondsSince(begun) })
    }
  }

  async time<Value>(stage: string, work: () => Promise<Value>): Promise<Value> {
    const begun = performance.now()
    try {
      return await work()
    } finally {
      this.#stages.push({ stage, seconds: secondsSince(begun) })
    }
  }
}

const secondsSince = (begun: number): number => Math.round(performance.now() - begun) / 1000
