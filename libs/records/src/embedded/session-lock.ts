// First come, first served turns on the one session. Whoever holds the turn runs a statement or a whole transaction.

import { refuseNestedUse } from '../transaction-scope.js'

/** Gives the turn back; calling it again does nothing. */
export type Release = () => void

export class SessionLock {
  #last: Promise<void> = Promise.resolve()

  async acquire(): Promise<Release> {
    refuseNestedUse()
    const before = this.#last
    let release!: Release
    this.#last = new Promise<void>((resolve) => {
      release = resolve
    })
    await before
    return release
  }
}
