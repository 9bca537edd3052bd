// The one door to mathjs. Loaded on first use and synchronously, because importing the library takes about 0.4 s and most
// requests carry plain numbers and no expression. Used for its unit type and its parser only: nothing it parses is ever
// evaluated by it.
import { createRequire } from 'node:module'
import type * as Mathjs from 'mathjs'

let loaded: typeof Mathjs | undefined

export function mathjs(): typeof Mathjs {
  loaded ??= createRequire(import.meta.url)('mathjs') as typeof Mathjs
  return loaded
}
