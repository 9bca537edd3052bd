// A short search ahead of the sweep: its members are the seeds that every shard starts from, so that none has to find for
// itself what dominates most, and from how many boxes it took follows about how many the sweep will take.
// It searches stretches of the plan's order, each as long as all before, until a few thousand boxes are bounded. That is the
// same on every machine.
//
// Boxes grow with searched nodes to the power of about 0.82: less than in proportion, since members found in one node put
// boxes of others away. The exponent lay between 0.73 and 0.97 over thirteen questions of the benchmark, from 7,800 to 6.9
// million boxes; with it the guess was within a factor of 1.8 of the truth on each.
import { SweepCancelled } from './box-search.js'
import type { Plan } from './plan.js'
import type { SweepProblem } from './problem.js'
import { FrontSearch } from './search-front.js'

/** Enough boxes, and enough boxes of however few nodes. */
const BOXES = 3000
const BOXES_OF_FEW = 5000
const FEW_NODES = 4
/** Of the nodes at most this share: more of a small sweep is no pilot. */
const NODES_SHARE = 1 / 8
const BOXES_MOST = 10_000
const GROWTH_EXPONENT = 0.82
/** Members that go along at most: the rest would put little more away. */
const SEEDS_MOST = 200

export interface Pilot {
  /** Numbers of members to start from. */
  readonly seeds: readonly number[]
  /** Boxes bounded, and about how many one search of the whole plan bounds. */
  readonly boxes: number
  readonly expectedBoxes: number
}

export function flyPilot(problem: SweepProblem, plan: Plan): Pilot {
  const nodes = plan.nodes.length
  let settled = 0
  const search = new FrontSearch(problem, plan, {
    settled(combinations) {
      settled += combinations
    },
    cancelled: () => search.boxes >= BOXES_MOST,
  })
  let searched = 0
  try {
    while (searched < nodes && !isEnough(search.boxes, searched, nodes)) {
      const to = Math.min(nodes, Math.max(1, 2 * searched))
      search.search(searched, to)
      searched = to
    }
  } catch (error) {
    if (!(error instanceof SweepCancelled)) throw error
    searched = Math.max(Number.EPSILON, (nodes * settled) / plan.compatible)
  }
  const grows = searched > 0 ? (nodes / searched) ** GROWTH_EXPONENT : 1
  const seeds = search.front.members().map(({ number }) => number)
  return { seeds: spread(seeds, SEEDS_MOST), boxes: search.boxes, expectedBoxes: search.boxes * Math.max(1, grows) }
}

function isEnough(boxes: number, searched: number, nodes: number): boolean {
  return (boxes >= BOXES && searched >= FEW_NODES) || boxes >= BOXES_OF_FEW || searched >= nodes * NODES_SHARE
}

/** At most `most` of a list, evenly. */
function spread(numbers: readonly number[], most: number): readonly number[] {
  if (numbers.length <= most) return numbers
  return Array.from({ length: most }, (_, i) => numbers[Math.floor((i * numbers.length) / most)] as number)
}
