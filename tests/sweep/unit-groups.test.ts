// Trees of units: one for each cell count and timing, and the same ones whether they are grown or copied from another timing.

import { UnitBoxes } from '@ductwright/models/sweep/unit-boxes'
import { emptyExtreme } from '@ductwright/models/sweep/unit-columns'
import { groupUnits } from '@ductwright/models/sweep/unit-groups'
import { growTree, treeWeights } from '@ductwright/models/sweep/unit-tree'
import { describe, expect, it } from 'vitest'
import { randomSweep } from './random-sweeps.js'

/** All that a box is. */
function told(boxes: UnitBoxes, box: number) {
  const [best, worst] = [emptyExtreme(), emptyExtreme()]
  boxes.readBest(box, best)
  boxes.readWorst(box, worst)
  const { counts, units, lefts, rights, timings, costs } = boxes
  return { columns: [counts, units, lefts, rights, timings, costs].map((column) => column[box]), best, worst }
}

describe('trees of units', () => {
  it('are those of every group grown for itself, box by box', () => {
    let [groups, copied] = [0, 0]
    for (let seed = 1; seed <= 40; seed++) {
      const { problem, plan } = randomSweep(seed).prepared
      const { candidates } = problem
      const alone = new UnitBoxes(2 * plan.units.length)
      for (const group of plan.groups) {
        const from = alone.length
        const root = growTree(group.units, plan.units, candidates, treeWeights(problem), alone)
        expect(root).toBe(group.root)
        for (let box = from; box <= root; box++) expect(told(plan.boxes, box)).toEqual(told(alone, box))
        const parts = (units: readonly number[]) =>
          units
            .map((unit) => plan.units[unit])
            .map((unit) => [unit?.esc, unit?.pack, unit?.arrangement].join())
            .join(';')
        groups++
        if (
          plan.groups.some(
            (other) => other.root < root && other.cells === group.cells && parts(other.units) === parts(group.units),
          )
        )
          copied++
      }
      expect(alone.length).toBe(plan.boxes.length)
    }
    expect(copied).toBeGreaterThan(0.2 * groups)
    expect(copied).toBeLessThan(groups)
  })

  it('tell apart units of one cell count and timing that are of other parts', () => {
    const { problem, plan } = randomSweep(1).prepared
    const some = [...plan.units.keys()].filter((unit) => unit % 3 !== 0)
    const boxes = new UnitBoxes(2 * some.length)
    const groups = groupUnits(plan.units, problem.candidates, treeWeights(problem), boxes, some)
    expect(groups.flatMap(({ units }) => units).sort((a, b) => a - b)).toEqual(some)
    const leaves = [...boxes.units.subarray(0, boxes.length)].filter((unit) => unit >= 0)
    expect(leaves.sort((a, b) => a - b)).toEqual(some)
  })
})
