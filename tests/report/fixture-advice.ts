// Believable advice to go with the fixture's setups: what the next money buys, the way up, and what would have to give
// where the answer is no. Only shape and size matter here.
import type { Advice, DragWork, Member, NearMiss, Relaxation, Result, StaircaseStep } from '@ductwright/contract/result'

type Named = (plain: string, at: number) => string

export function advice(rank: number, named: Named): Advice {
  return {
    steps: [
      {
        kind: 'treatment',
        words: named('Make the wheel doors close flush', 2),
        gain_km_h: 5.41,
        price: 51.9,
        hours: 16,
        rank: null,
        km_h_per_100: 10.42,
        km_h_per_hour: 0.338,
      },
      {
        kind: 'purchase',
        words: named(`number ${rank + 3} instead: the next larger motor`, 4),
        gain_km_h: 3.07,
        price: 54.9,
        hours: 0,
        rank: rank + 3,
        km_h_per_100: 5.59,
        km_h_per_hour: null,
      },
    ],
    ten_km_h_more: {
      words: named(`Number ${rank + 3} does 373 km/h for 160.40 EUR more.`, 5),
      rank: rank + 3,
      more_cost: 160.4,
    },
    more_margin: { words: named('The same setup at 88 % throttle: 12 km/h less.', 6), rank: null },
  }
}

/** Three steps up from what is flown now. */
export function staircase(front: readonly Member[], named: Named): StaircaseStep[] {
  const up = front.slice(0, 3).reverse()
  return up.map((member, at) => {
    const before = at === 0 ? { speed_km_h: 300, cost: 0 } : up[at - 1]!.raw
    return {
      rank: member.rank,
      speed_km_h: member.raw.speed_km_h,
      cost: member.raw.cost,
      margin: member.raw.margin,
      more_km_h: member.raw.speed_km_h - before.speed_km_h,
      more_cost: member.raw.cost - before.cost,
      words: named('A larger fan and its motor', at),
    }
  })
}

export function relaxations({ setup, shopping }: NearMiss, named: Named): Relaxation[] {
  const raw = { speed_km_h: 361.2, flight_time_s: 264, cost: 1342.4, margin: 0.131 }
  return [
    {
      relax: 'budget',
      words: named('raise the budget from 1,200 EUR to 1,342.40 EUR: then 361 km/h', 1),
      from: 1200,
      to: 1342.4,
      unit: 'EUR',
      ...{ raw, setup, shopping },
    },
    {
      relax: 'take-off-mass',
      words: named('allow a take-off mass of 5.31 kg instead of 5.00 kg: then 362 km/h', 5),
      from: 5,
      to: 5.31,
      unit: 'kg',
      ...{ raw, setup, shopping },
    },
  ]
}

export const dragWork = (named: Named): DragWork => ({
  speed_now_km_h: 300,
  speed_then_km_h: 312.4,
  price: 83.7,
  hours: 28.5,
  words: named('Clean-up work alone: from 300 km/h to 312 km/h for 83.70 EUR and 28.5 h.', 0),
})

export const knee = (front: readonly Member[], named: Named): Result['knee'] => {
  const member = front[Math.min(4, front.length - 1)]
  return member === undefined
    ? null
    : { rank: member.rank, why: named(`Beyond number ${member.rank} each km/h costs twice as much.`, 7) }
}
