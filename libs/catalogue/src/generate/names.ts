// Invented words that can be spoken, for makers and families of a generated catalogue.
import type { RandomStream } from './random.js'

const ONSETS = ['b', 'br', 'd', 'dr', 'f', 'g', 'h', 'k', 'kr', 'l', 'm', 'n', 'p', 'qu', 'r', 's', 't', 'v', 'z']
const VOWELS = ['a', 'e', 'i', 'o', 'u', 'ei', 'au', 'oa']
const CODAS = ['', '', 'l', 'n', 'r', 's', 'mm', 'nd', 'rk', 'lt', 'sk']

/** A capitalised word of three syllables that `taken` does not hold yet; adds it. */
export function newWord(random: RandomStream, taken: Set<string>): string {
  for (;;) {
    const syllables = [0, 1, 2].map(
      (i) => random.pick(ONSETS) + random.pick(VOWELS) + (i === 2 ? random.pick(CODAS) : ''),
    )
    const word = syllables.join('')
    if (taken.has(word)) continue
    taken.add(word)
    return word.charAt(0).toUpperCase() + word.slice(1)
  }
}
