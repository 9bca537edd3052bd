// What clean-up work not done yet would gain on a setup, what it costs and how long it takes, the largest gain first.
import { amountOf, bare, figure, type Quantity } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Sensitivity, TreatmentGain } from '@ductwright/contract/result'
import type { Block, GridColumn } from './letter.js'

type Column = readonly [title: string, quantity: Quantity, read: (work: TreatmentGain) => number]

const columns: readonly Column[] = [
  ['km/h gained', 'fineSpeed', (work) => work.gain_km_h],
  ['h', 'hours', (work) => work.hours],
  ['g', 'smallMass', (work) => work.mass_g],
  ['cm² less drag', 'dragArea', (work) => work.drag_area_cut_m2 * 1e4],
]

/** A row a piece of work. */
export function cleanUpBlocks(sensitivity: Sensitivity, currency: string): Block[] {
  const works = [...sensitivity.treatments].sort((a, b) => b.gain_km_h - a.gain_km_h)
  if (works.length === 0) return []
  const heads = ['Clean-up work not done yet', inert(currency, 8), ...columns.map(([title]) => title)]
  const grid: Block = {
    kind: 'grid',
    columns: heads.map((title, at): GridColumn => ({ title, align: at === 0 ? 'left' : 'right' })),
    rows: works.map((work) => [
      inert(work.words, 120),
      amountOf(work.price),
      ...columns.map(([, quantity, read]) => bare(quantity, read(work))),
    ]),
  }
  const all = sensitivity.all_treatments_km_h
  const together = `All of it together: ${figure('fineSpeed', all)} more.`
  return all === null ? [grid] : [grid, { kind: 'paragraph', text: together }]
}
