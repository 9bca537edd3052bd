// Why the answer is another one, in one sentence: the rows of the catalogue that the two setups use, or else the models, or
// else how much of the catalogue moved around them.
import { figure } from '@ductwright/contract/figures'
import { inert } from '@ductwright/contract/inert'
import type { Result } from '@ductwright/contract/result'
import type { AnswerChange, ChangedRow } from './answer-change.js'

/** More rows than this are counted, not told. */
const mostRows = 4
const longestRow = 200

export function reasonSentence(change: AnswerChange, old: Result, now: Result): string {
  const models = modelClause(old, now)
  const own = rowsClause(change.responsible)
  if (own !== '') return `What did it: ${[own, models].filter((words) => words !== '').join('; and ')}.`
  const near = rowsClause(change.around)
  if (near !== '') {
    const clauses = [near, models].filter((words) => words !== '').join('; and ')
    return `What did it, in other setups of the list: ${clauses}.`
  }
  if (models !== '') return `What did it: ${models}, and no row of these setups changed.`
  if (change.rows === 0) return 'What did it: nothing in the catalogue or the models; the question itself was changed.'
  const count = `${figure('count', change.rows)} ${change.rows === 1 ? 'row' : 'rows'}`
  return `What did it: ${count} of the catalogue changed around these setups, and none of their own parts.`
}

function rowsClause(rows: readonly ChangedRow[]): string {
  const told = rows.slice(0, mostRows).map(({ words }) => inert(words, longestRow))
  const more = rows.length - told.length
  const rest = more === 0 ? [] : [`${figure('count', more)} more ${more === 1 ? 'row' : 'rows'}`]
  return [...told, ...rest].join('; ')
}

function modelClause(old: Result, now: Result): string {
  if (old.model_version === now.model_version) return ''
  return `the models are version ${inert(now.model_version, 40)}, were ${inert(old.model_version, 40)}`
}
