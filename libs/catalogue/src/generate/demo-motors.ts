// Motor families of the demonstration catalogue; makers and names are invented.
import type { MotorFamily } from './plan.js'

/** Every wind of a list of [fan size, cells] pairs. */
function motors(pairs: readonly (readonly [number, number])[], winds: readonly number[] = [1]): MotorFamily['motors'] {
  return pairs.flatMap(([size, cells]) => winds.map((wind) => ({ size, cells, wind })))
}

export const demoMotors: readonly MotorFamily[] = [
  // Good value.
  {
    maker: 'Fennick Drives',
    name: 'Torva',
    polePairs: 2,
    quality: 1.02,
    timing_deg: 15,
    windingLimit_c: 150,
    magnets: 'H',
    canStep: 0,
    slenderness: 1.9,
    price: 0.9,
    motors: motors([
      [64, 4],
      [64, 6],
      [70, 4],
      [70, 6],
      [80, 6],
      [80, 8],
      [90, 6],
      [90, 8],
      [90, 10],
      [90, 12],
      [105, 10],
      [105, 12],
      [120, 12],
    ]),
  },
  // The best, and dear.
  {
    maker: 'Kelvane',
    name: 'Isarn',
    polePairs: 2,
    quality: 1.14,
    timing_deg: 10,
    windingLimit_c: 155,
    magnets: 'SH',
    canStep: 1,
    slenderness: 1.95,
    price: 1.35,
    motors: [
      ...motors([
        [64, 6],
        [70, 6],
      ]),
      ...motors(
        [
          [80, 8],
          [90, 8],
          [90, 10],
          [90, 12],
          [105, 10],
          [105, 12],
          [105, 14],
          [120, 12],
          [120, 14],
        ],
        [1, 1.06],
      ),
    ],
  },
  // Many poles, smooth, hungry for electrical speed.
  {
    maker: 'Dromm',
    name: 'Zehn',
    polePairs: 5,
    quality: 1.06,
    timing_deg: 15,
    windingLimit_c: 140,
    magnets: 'SH',
    canStep: -1,
    slenderness: 1.7,
    price: 1.1,
    motors: motors(
      [
        [55, 4],
        [70, 4],
        [70, 6],
        [80, 6],
        [90, 8],
        [90, 10],
        [105, 12],
        [120, 14],
      ],
      [0.96],
    ),
  },
  // Cheap and heavy on resistance, for sport flying.
  {
    maker: 'Wickerlund',
    name: 'Pim',
    polePairs: 3,
    quality: 0.87,
    timing_deg: 5,
    windingLimit_c: 130,
    magnets: 'H',
    canStep: -1,
    slenderness: 1.65,
    price: 0.8,
    motors: motors(
      [
        [50, 3],
        [50, 4],
        [55, 3],
        [55, 4],
        [64, 3],
        [64, 4],
        [70, 4],
        [70, 6],
        [80, 6],
        [90, 6],
        [90, 8],
      ],
      [1],
    ),
  },
  // Dear for what it does.
  {
    maker: 'Ravelli & Thorn',
    name: 'Maestral',
    polePairs: 2,
    quality: 0.95,
    timing_deg: 15,
    windingLimit_c: 150,
    magnets: 'SH',
    canStep: 0,
    slenderness: 1.95,
    price: 1.3,
    motors: motors(
      [
        [64, 6],
        [80, 6],
        [80, 8],
        [90, 10],
        [90, 12],
        [105, 8],
        [105, 12],
        [105, 14],
        [120, 10],
        [120, 12],
      ],
      [1.04],
    ),
  },
]
