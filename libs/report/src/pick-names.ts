// What the named setups are called, the same in every list and heading.
import type { Pick } from '@ductwright/contract/result'

export const pickNames: Readonly<Record<Pick['pick'], string>> = {
  'best-for-the-money': 'Best for the money',
  safest: 'Safest',
  fastest: 'Fastest',
}

/** The setup beyond which more speed gets dear. */
export const kneeName = 'Best balance'
