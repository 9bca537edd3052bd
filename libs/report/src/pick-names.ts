// The named setups of an answer: what they are called, the same in every list and heading, and which of them are one.
import type { Pick } from '@ductwright/contract/result'

export const pickNames: Readonly<Record<Pick['pick'], string>> = {
  'best-all-round': 'Best all round',
  'best-for-the-money': 'Best for the money',
  safest: 'Safest',
  fastest: 'Fastest',
}

type Picked = { readonly picks: readonly Pick[] }

/** The setup beyond which more speed gets dear. */
export const kneeName = 'Dearer beyond it'

/** The picks that are different setups, each once, in their order. */
export function distinctPicks({ picks }: Picked): Pick[] {
  return picks.filter((pick, at) => picks.findIndex(({ rank }) => rank === pick.rank) === at)
}

/** All that one setup is picked for, such as "best all round, safest"; empty when it is no pick. */
export function pickedFor({ picks }: Picked, rank: number): string {
  const named = picks.filter((pick) => pick.rank === rank)
  return named.map(({ pick }) => pickNames[pick].toLowerCase()).join(', ')
}
