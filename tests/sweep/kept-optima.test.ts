// The best setups of the searches beside the front, from those of the catalogue before an edit: what a search of the whole
// finds, whatever was edited, and the whole is seldom searched.
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { parseRequest } from '@ductwright/contract/parse-request'
import { relaxDragArea } from '@ductwright/models/relaxation/drag-relaxation'
import { isLeastFor, type Least, type OpenLimit, searchLeast } from '@ductwright/models/relaxation/least-search'
import { changedCombinations } from '@ductwright/models/sweep/changed-combinations'
import { numberOf, placesOf } from '@ductwright/models/sweep/combination-number'
import { Optima } from '@ductwright/models/sweep/kept-optima'
import type { NearMiss } from '@ductwright/models/sweep/near-misses'
import { planSweep } from '@ductwright/models/sweep/plan'
import type { Sweep } from '@ductwright/models/sweep/sweep-change'
import { nearestSetups } from '@ductwright/pipeline/nearest-setups'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import { describe, expect, it } from 'vitest'
import { type Edit, editedCatalogue } from './catalogue-edits.js'
import { FIRST_SEED, searchCases } from './config.js'
import { randomSweep } from './random-sweeps.js'

/** Each takes three searches of everything. */
const EDITS = Math.ceil(searchCases() / 3)
const EDITS_PER_SWEEP = 3
const going = () => false

interface Found {
  readonly misses: readonly (readonly NearMiss[])[]
  readonly leasts: readonly (Least | null)[]
  readonly drag: ReturnType<typeof relaxDragArea>
}

const WIDEST: Readonly<Partial<Record<OpenLimit, number>>> = {
  budget: Number.POSITIVE_INFINITY,
  'stall-speed': 200 / 3.6,
  'structural-margin': 0,
  'flight-time': 0,
}

/** Every search there is, with the target out of reach or not. */
function everything(prepared: Prepared, optima: Optima): Found {
  const { problem, plan } = prepared
  const { targetSpeed } = problem.comparison
  const misses = [true, false].map((reaching) => nearestSetups(prepared, reaching, optima, going).misses)
  const leasts = Object.entries(WIDEST).map(([name, widest]) => {
    const limit = name as OpenLimit
    const opened = { limit, widest, speedFloor: 0.9 * targetSpeed }
    const [least] = optima.best<Least>(`least of ${limit}`, {
      isBefore: isLeastFor(limit),
      whole: () => [searchLeast(problem, plan, opened, going)],
      ofChanged: (changed, [known]) => [
        searchLeast(problem, changed.plan, opened, going, {
          boxes: changed.boxes,
          seeds: known ? [known.number] : [],
        }),
      ],
    })
    return least ?? null
  })
  return { misses, leasts, drag: relaxDragArea(problem, plan, targetSpeed, going, optima) }
}

function partsIn({ problem, plan }: Sweep, { misses, leasts }: Found): Set<string> {
  const { fans, motors, escs, packs } = problem.candidates
  const best = [...misses.flat(), ...leasts.filter((least) => least !== null)]
  const ids = best.flatMap(({ number }) => {
    const { node, unit } = placesOf(problem, plan, number)
    const [pair, source] = [plan.nodes[node], plan.units[unit]]
    return [fans[pair?.fan ?? -1], motors[pair?.motor ?? -1], escs[source?.esc ?? -1], packs[source?.pack ?? -1]]
  })
  return new Set(ids.map((part) => part?.id ?? ''))
}

describe('the best setups beside the front, after an edit', () => {
  it(`are those of a search of the whole, after ${EDITS} random edits that like to hit their parts`, () => {
    const met: Partial<Record<Edit, number>> = {}
    let [searches, whole, differing, none] = [0, 0, 0, 0]
    for (let seed = FIRST_SEED, edits = 0; edits < EDITS; seed++) {
      const { catalogue, request, prepared } = randomSweep(seed)
      const before = new Optima()
      const found = everything(prepared, before)
      const random = new RandomStream(seed, 'optima')
      const liked = partsIn(prepared, found)
      for (let i = 0; i < EDITS_PER_SWEEP && edits < EDITS; i++, edits++) {
        const edited = editedCatalogue(catalogue, random, liked)
        const after = prepare(parseRequest(request), edited.catalogue)
        const optima = new Optima(before.found, () => changedCombinations(prepared, after))
        const anew = new Optima()
        const expected = everything(after, anew)
        expect({ seed, edit: edited.edit, found: everything(after, optima) }).toEqual({
          seed,
          edit: edited.edit,
          found: expected,
        })
        met[edited.edit] = (met[edited.edit] ?? 0) + 1
        searches += anew.found.size
        whole += optima.found.size
        none += [...before.found.values()].filter((best) => best.every((one) => one === null)).length
        if (JSON.stringify([...anew.found]) !== JSON.stringify([...before.found])) differing++
      }
    }
    expect(Object.keys(met).length).toBeGreaterThan(7)
    expect(differing).toBeGreaterThan(0.2 * EDITS)
    expect(none).toBeGreaterThan(0)
    expect(whole).toBeGreaterThan(0)
    expect(whole).toBeLessThan(0.4 * searches)
  })
})

function manyNodes(): Sweep {
  for (let seed = 1; ; seed++) {
    const { prepared } = randomSweep(seed)
    if (prepared.plan.nodes.length >= 8) return prepared
  }
}

describe('what changed of a sweep', () => {
  const { problem, plan } = manyNodes()
  const { candidates } = problem

  it('is nothing when nothing did', () => {
    const changed = changedCombinations({ problem, plan }, { problem, plan })
    expect(changed?.boxes).toEqual([])
    const number = numberOf(problem, plan, { node: 1, unit: 1, duty: 0 })
    expect(changed?.heirOf(number)).toBe(number)
    expect(changed?.stands(number)).toBe(true)
  })

  it('is every combination of what costs another sum, and no other', () => {
    const dearer = { ...candidates, packCost: candidates.packCost.map((cost, i) => (i < 2 ? cost + 1 : cost)) }
    const now = { ...problem, candidates: dearer }
    const after = { problem: now, plan: planSweep(now) }
    const changed = changedCombinations({ problem, plan }, after)
    if (changed === null) throw new Error('too much changed')
    const covered = new Set<string>()
    const under = (node: number, box: number): void => {
      const unit = changed.plan.boxes.units[box] as number
      if (unit >= 0) covered.add(`${node} ${unit}`)
      else for (const half of ['lefts', 'rights'] as const) under(node, changed.plan.boxes[half][box] as number)
    }
    for (const { node, box } of changed.boxes) under(node, box)
    const expected = plan.nodes.flatMap(({ motor }, node) =>
      plan.units.flatMap(({ pack, source }, unit) =>
        pack === 0 && source.cells <= (candidates.motors[motor]?.cellsMax ?? 0) ? [`${node} ${unit}`] : [],
      ),
    )
    expect(expected.length).toBeGreaterThan(0)
    expect([...covered].sort()).toEqual(expected.sort())
    plan.units.forEach(({ pack }, unit) => {
      expect(changed.stands(numberOf(problem, plan, { node: 0, unit, duty: 0 }))).toBe(pack !== 0)
    })
  })

  it('is not looked for when the question is another, or most is new', () => {
    const hot = { ...problem, comparison: { ...problem.comparison, targetSpeed: 1 } }
    expect(changedCombinations({ problem, plan }, { problem: hot, plan })).toBeNull()
    const dear = { ...problem, candidates: { ...candidates, pairCost: candidates.pairCost.map((cost) => cost + 1) } }
    expect(changedCombinations({ problem, plan }, { problem: dear, plan })).toBeNull()
  })
})
