// The answer from what an earlier run left, after random edits of the catalogue: byte for byte the answer of a whole run.
import { RandomStream } from '@ductwright/catalogue/generate/random'
import { canonicalJson } from '@ductwright/contract/canonical-json'
import { parseRequest } from '@ductwright/contract/parse-request'
import { SweepCancelled } from '@ductwright/models/sweep/box-search'
import { certifyShard } from '@ductwright/models/sweep/evaluate-shard'
import { Optima } from '@ductwright/models/sweep/kept-optima'
import { answer } from '@ductwright/pipeline/answer'
import { type KeptFront, keptFrontOf, optimaSince, takeOverFront } from '@ductwright/pipeline/kept-front'
import { type Prepared, prepare } from '@ductwright/pipeline/prepare'
import { evaluateShard, flyPilot, planShards } from '@ductwright/pipeline/shards'
import { describe, expect, it } from 'vitest'
import { type Edit, editedCatalogue } from '../sweep/catalogue-edits.js'
import { FIRST_SEED, searchCases } from '../sweep/config.js'
import { quiet, randomSweep } from '../sweep/random-sweeps.js'

const still = { settled() {}, cancelled: () => false }
/** Each is answered three times, studies and all. */
const EDITS = Math.ceil(searchCases() / 10)

const rangesOf = (prepared: Prepared) => planShards(prepared, flyPilot(prepared.problem, prepared.plan))

function kept(prepared: Prepared): KeptFront {
  const shards = rangesOf(prepared).map((range) => certifyShard(prepared.problem, prepared.plan, range, quiet))
  const optima = new Optima()
  answer(
    prepared,
    shards.map(({ front }) => front),
    { optima },
  )
  return keptFrontOf(prepared, shards, optima.found)
}

function whole(prepared: Prepared): string {
  const fronts = rangesOf(prepared).map((range) => evaluateShard(prepared, range, quiet))
  return canonicalJson(answer(prepared, fronts))
}

describe('an answer from what was kept', () => {
  it(`is that of a whole run byte for byte, after ${EDITS} random edits`, () => {
    const met: Partial<Record<Edit, number>> = {}
    let [takenOver, wholeRuns, differing, notReached, nothingWhole] = [0, 0, 0, 0, 0]
    for (let seed = FIRST_SEED, edits = 0; edits < EDITS; seed++, edits++) {
      const { catalogue, request, prepared } = randomSweep(seed)
      const edited = editedCatalogue(catalogue, new RandomStream(seed, 'take over'))
      const after = prepare(parseRequest(request), edited.catalogue)
      const left = kept(prepared)
      const found = takeOverFront(prepared, left, after, still)
      if (found.kind === 'whole-run-needed') {
        expect(found.reason).toMatch(/^(more than \d+ boxes|the circumstances|fixedCost)/)
        wholeRuns++
        continue
      }
      const full = whole(after)
      const optima = optimaSince(prepared, left, after)
      const taken = answer(after, [found.front], { optima })
      expect({ seed, edit: edited.edit, answer: canonicalJson(taken) }).toEqual({
        seed,
        edit: edited.edit,
        answer: full,
      })
      takenOver++
      if (taken.outcome !== 'reached') {
        notReached++
        if (optima.found.size === 0) nothingWhole++
      }
      met[edited.edit] = (met[edited.edit] ?? 0) + 1
      if (full !== whole(prepared)) differing++
    }
    expect(takenOver).toBeGreaterThan(0.5 * EDITS)
    expect(wholeRuns).toBeGreaterThan(0)
    expect(notReached).toBeGreaterThan(0.3 * EDITS)
    expect(nothingWhole).toBeGreaterThan(0.5 * notReached)
    expect(Object.keys(met).length).toBeGreaterThan(6)
    expect(differing).toBeGreaterThan(0.5 * takenOver)
  })

  it('is of no use to another plan', () => {
    const { prepared } = randomSweep(1)
    const front = kept(prepared)
    expect(takeOverFront(prepared, front, prepared, still).kind).toBe('found')
    expect(takeOverFront(randomSweep(2).prepared, front, prepared, still)).toEqual({
      kind: 'whole-run-needed',
      reason: 'what was kept is of another plan',
    })
  })

  it('stops when told to', () => {
    const { catalogue, request, prepared } = randomSweep(3)
    const cheaper = catalogue.escs.map((esc) => ({ ...esc, price: 0.5 * esc.price }))
    const after = prepare(parseRequest(request), { ...catalogue, escs: cheaper })
    const told = { settled() {}, cancelled: () => true }
    expect(() => takeOverFront(prepared, kept(prepared), after, told)).toThrow(SweepCancelled)
  })
})
