// The front after an edit of the catalogue, from the certificate of the front before: the same members as a whole run finds,
// number for number and bit for bit, whatever was edited; and nothing is searched where nothing changed.
import type { Catalogue } from '@ductwright/catalogue/catalogue'
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { parseRequest } from '@ductwright/contract/parse-request'
import { SweepCancelled } from '@ductwright/models/sweep/box-search'
import { placesOf } from '@ductwright/models/sweep/combination-number'
import { certifyShard, evaluateShard } from '@ductwright/models/sweep/evaluate-shard'
import { mergeFronts } from '@ductwright/models/sweep/merge'
import { mergeCertificates } from '@ductwright/models/sweep/merge-certificates'
import { flyPilot } from '@ductwright/models/sweep/pilot'
import { planSweep } from '@ductwright/models/sweep/plan'
import type { Candidates, SweepProblem } from '@ductwright/models/sweep/problem'
import { type CertifiedSweep, type ChangedFront, searchChange } from '@ductwright/models/sweep/search-change'
import { splitPlan } from '@ductwright/models/sweep/shards'
import { type Sweep, sweepChange } from '@ductwright/models/sweep/sweep-change'
import { prepare } from '@ductwright/pipeline/prepare'
import { describe, expect, it } from 'vitest'
import { type Edit, editedCatalogue } from './catalogue-edits.js'
import { FIRST_SEED, searchCases } from './config.js'
import { quiet, randomSweep } from './random-sweeps.js'

const still = { settled() {}, cancelled: () => false }
const EDITS = searchCases()
const EDITS_PER_SWEEP = 3

function certified({ problem, plan }: Sweep, shards = 1): CertifiedSweep {
  const { seeds } = flyPilot(problem, plan)
  const parts = splitPlan(plan, shards, seeds).map((range) => certifyShard(problem, plan, range, quiet))
  const merged = mergeFronts(parts.map(({ front }) => front))
  return { problem, plan, members: merged.members, certificate: mergeCertificates(parts, merged) }
}

function whole({ problem, plan }: Sweep) {
  return mergeFronts(splitPlan(plan, 1).map((range) => evaluateShard(problem, plan, range, quiet)))
}

function found(front: ChangedFront) {
  if (front.kind !== 'found') throw new Error(`whole run needed: ${front.reason}`)
  return front.front
}

/** Ids of the parts in any member. */
function partsIn({ problem, plan, members }: CertifiedSweep): Set<string> {
  const { fans, motors, escs, packs } = problem.candidates
  const ids = members.flatMap(({ number }) => {
    const { node, unit } = placesOf(problem, plan, number)
    const [pair, source] = [plan.nodes[node], plan.units[unit]]
    return [fans[pair?.fan ?? -1], motors[pair?.motor ?? -1], escs[source?.esc ?? -1], packs[source?.pack ?? -1]]
  })
  return new Set(ids.map((part) => part?.id ?? ''))
}

/** A sweep with one list of candidates emptied, and all that is counted by it. */
function without(problem: SweepProblem, kind: 'fans' | 'motors' | 'escs' | 'packs'): Sweep {
  const none: Record<typeof kind, Partial<Candidates>> = {
    fans: { fans: [], pairCost: [], pairMass: [] },
    motors: { motors: [], pairCost: [], pairMass: [] },
    escs: { escs: [], escCost: [], escMass: [] },
    packs: { packs: [], packCost: [] },
  }
  const emptied = { ...problem, candidates: { ...problem.candidates, ...none[kind] } }
  return { problem: emptied, plan: planSweep(emptied) }
}

const sample = Array.from({ length: 60 }, (_, i) => i + 1)
  .map((seed) => certified(randomSweep(seed).prepared))
  .filter(({ members }) => members.length > 3)
  .slice(0, 8)

describe('the front after a change', () => {
  it(`is that of a whole run, after ${EDITS} random edits of random sweeps`, () => {
    const met: Partial<Record<Edit, number>> = {}
    let [boxes, fullBoxes, differing, members, unrounded] = [0, 0, 0, 0, 0]
    for (let seed = FIRST_SEED, edits = 0; edits < EDITS; seed++) {
      const { catalogue, request, prepared } = randomSweep(seed)
      const before = certified(prepared, 1 + (seed % 3))
      const random = new RandomStream(seed, 'edits')
      const liked = partsIn(before)
      for (let i = 0; i < EDITS_PER_SWEEP && edits < EDITS; i++, edits++) {
        const edited = editedCatalogue(catalogue, random, liked)
        const after = prepare(parseRequest(request), edited.catalogue)
        const full = whole(after)
        const change = found(searchChange(before, after, still))
        expect({ seed, edit: edited.edit, members: change.members }).toEqual({
          seed,
          edit: edited.edit,
          members: full.members,
        })
        met[edited.edit] = (met[edited.edit] ?? 0) + 1
        boxes += change.boxes
        fullBoxes += full.boxes
        members += full.members.length
        if (JSON.stringify(full.members) !== JSON.stringify(before.members)) differing++
        if (after.problem.comparison.resolution.speed === 0) unrounded++
      }
    }
    // The sample must mean something: every kind of edit, many that change the front, rounded and not, and work spared.
    expect(Object.keys(met).length).toBe(9)
    expect(differing).toBeGreaterThan(0.2 * EDITS)
    expect(members).toBeGreaterThan(3 * EDITS)
    expect(unrounded).toBeGreaterThan(0.2 * EDITS)
    expect(unrounded).toBeLessThan(0.7 * EDITS)
    expect(boxes).toBeLessThan(0.7 * fullBoxes)
  })

  it('takes no box when nothing changed', () => {
    expect(sample.length).toBe(8)
    for (const before of sample) {
      const change = found(searchChange(before, before, still))
      const { members, removed, ...counts } = change
      expect(members).toEqual(before.members)
      expect(Math.max(...removed)).toBe(0)
      expect(counts).toMatchObject({ dominated: 0, feasible: 0, evaluated: 0, boxes: 0 })
    }
  })

  it('is that of a whole run when all of a kind are gone, and when they come back', () => {
    for (const before of sample) {
      for (const kind of ['fans', 'motors', 'escs', 'packs'] as const) {
        const emptied = without(before.problem, kind)
        expect(found(searchChange(before, emptied, still)).members).toEqual([])
        expect(found(searchChange(certified(emptied), before, still)).members).toEqual(before.members)
      }
    }
  })

  it('meets what was worked through and beaten, when its fan or motor becomes cheaper', () => {
    let differing = 0
    for (let seed = 1; seed <= 40; seed++) {
      const before = certified(randomSweep(seed).prepared)
      const { problem } = before
      const { fans, motors, pairCost } = problem.candidates
      const inMembers = partsIn(before)
      for (const { id } of [...fans, ...motors].filter((part) => !inMembers.has(part.id))) {
        for (const factor of [0.9, 0.5]) {
          const cheaper = pairCost.map((cost, pair) => {
            const [fan, motor] = [fans[Math.floor(pair / motors.length)], motors[pair % motors.length]]
            return fan?.id === id || motor?.id === id ? cost * factor : cost
          })
          const now = { ...problem, candidates: { ...problem.candidates, pairCost: cheaper } }
          const after = { problem: now, plan: before.plan }
          const full = whole(after)
          expect(found(searchChange(before, after, still)).members).toEqual(full.members)
          if (JSON.stringify(full.members) !== JSON.stringify(before.members)) differing++
        }
      }
    }
    expect(differing).toBeGreaterThan(0)
  })

  it('follows a series of edits from one certificate', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const { catalogue, request, prepared } = randomSweep(seed)
      const before = certified(prepared)
      const random = new RandomStream(seed, 'series')
      let current: Catalogue = catalogue
      for (let i = 0; i < 5; i++) {
        current = editedCatalogue(current, random, partsIn(before)).catalogue
        const after = prepare(parseRequest(request), current)
        expect(found(searchChange(before, after, still)).members).toEqual(whole(after).members)
      }
    }
  })

  it('keeps the order of what stands', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const { catalogue, request, prepared } = randomSweep(seed)
      const edited = editedCatalogue(catalogue, new RandomStream(seed, 'order'))
      const { nodes, units, newNodes, newUnits } = sweepChange(
        prepared,
        prepare(parseRequest(request), edited.catalogue),
      )
      for (const standing of [nodes, units].map((map) => [...map].filter((place) => place >= 0)))
        for (let i = 1; i < standing.length; i++) expect(standing[i]).toBeGreaterThan(standing[i - 1] as number)
      expect([...nodes].filter((place) => newNodes.includes(place))).toEqual([])
      expect([...units].filter((place) => newUnits.includes(place))).toEqual([])
    }
  })

  it('is not taken over to another question, and the reason is told', () => {
    const [before] = sample
    if (before === undefined) throw new Error('no sweep')
    const { problem, plan } = before
    const reasonFor = (other: Partial<SweepProblem>) =>
      searchChange(before, { problem: { ...problem, ...other }, plan }, still)
    const { circumstances, candidates, comparison } = problem
    const told = (reason: string) => ({ kind: 'whole-run-needed', reason })
    expect(reasonFor({ circumstances: { ...circumstances, runway: 1 } })).toEqual(told('the circumstances are others'))
    expect(reasonFor({ comparison: { ...comparison, wantedMargin: 9 } })).toEqual(told('something else is compared'))
    for (const [setting, value] of Object.entries({ duties: [1], nozzleRatios: [1], arrangements: [], fixedCost: -1 }))
      expect(reasonFor({ candidates: { ...candidates, [setting]: value } })).toEqual(told(`${setting} are others`))
    const turned = { ...candidates, packs: [...candidates.packs].reverse() }
    expect(reasonFor({ candidates: turned })).toEqual(told('packs are not sorted by id'))
  })

  it('asks for a whole run instead where more than so many boxes would be searched', () => {
    const [before] = sample
    if (before === undefined) throw new Error('no sweep')
    const { problem } = before
    const dear = { ...problem.candidates, escCost: problem.candidates.escCost.map((cost) => 0.5 * cost) }
    const after = { problem: { ...problem, candidates: dear }, plan: planSweep({ ...problem, candidates: dear }) }
    const { boxes } = found(searchChange(before, after, still))
    // Looked at every 256 boxes.
    expect(boxes).toBeGreaterThan(256)
    expect(searchChange(before, after, still, 10)).toEqual({
      kind: 'whole-run-needed',
      reason: 'more than 10 boxes would be searched again',
    })
    expect(found(searchChange(before, after, still, boxes)).members).toEqual(whole(after).members)
  })

  it('refuses the certificate of another plan, and stops when cancelled', () => {
    const [before] = sample
    if (before === undefined) throw new Error('no sweep')
    const { certificate, plan } = before
    const other = { ...certificate, nodes: certificate.nodes.map(() => plan.nodes.length) }
    expect(() => searchChange({ ...before, certificate: other }, before, still)).toThrow(
      'a certificate must be used with the plan it was made from',
    )
    expect(() => searchChange(before, before, { settled() {}, cancelled: () => true })).toThrow(SweepCancelled)
  })
})
