// Pack families of the demonstration catalogue; makers and names are invented.
import type { PackFamily } from './plan.js'

/** Every capacity of each cell count. */
function packs(choices: Readonly<Record<number, readonly number[]>>): PackFamily['packs'] {
  return Object.entries(choices).flatMap(([cells, capacities]) =>
    capacities.map((capacity_mah) => ({ cells: Number(cells), capacity_mah })),
  )
}

export const demoPacks: readonly PackFamily[] = [
  // High power, dear, and an honest label.
  {
    maker: 'Zellwig',
    name: 'Harlin',
    k: 0.0065,
    boast: 1.9,
    price: 1.1,
    packs: packs({
      4: [3300],
      5: [4000, 5000],
      6: [3300, 4000, 5000, 5800],
      7: [5000],
      8: [4000, 5000],
      10: [5000],
      12: [4000, 5000],
      14: [5000],
    }),
  },
  // Good value.
  {
    maker: 'Boltanne',
    name: 'Ambra',
    k: 0.0085,
    boast: 2.3,
    price: 0.85,
    packs: packs({
      3: [2200],
      4: [2200, 3300],
      5: [3700, 5000],
      6: [2600, 3700, 5000, 6000],
      7: [5000],
      8: [3700, 5000],
      10: [4500],
      12: [4500],
      14: [4500],
    }),
  },
  // The middle.
  {
    maker: 'Pakkari',
    name: 'Sarvik',
    k: 0.0105,
    boast: 2.4,
    price: 1,
    packs: packs({
      3: [1800, 2200],
      4: [2200, 3300],
      5: [3300, 5000],
      6: [3300, 4000, 5000],
      8: [4000, 5000],
      10: [5000],
      12: [5000],
    }),
  },
  // Dear for what it does.
  {
    maker: 'Lumorel',
    name: 'Verlo',
    k: 0.0115,
    boast: 2.8,
    price: 1.3,
    packs: packs({ 4: [2600], 5: [4000, 5500], 6: [4000, 5500], 7: [4000], 8: [4500], 10: [4000], 12: [4000] }),
  },
  // Cheap, heavy on resistance, with a label that boasts.
  {
    maker: 'Gromlet Cells',
    name: 'Brimble',
    k: 0.0165,
    boast: 3.4,
    price: 0.8,
    packs: packs({
      3: [1500, 2200],
      4: [1800, 2600, 4000],
      5: [5000],
      6: [3300, 4500, 6000],
      8: [5000],
      10: [5500],
      12: [5500],
    }),
  },
]
