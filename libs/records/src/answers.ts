// Answers: the end of a sweep in one transaction. Result, receipt, the request's end and the mail to its owner are
// stored together or not at all; the unique pair (request, answer hash) keeps a second mail for one answer out.

import { addToOutbox } from './outbox.js'
import type { Records } from './records.js'
import { endSweep } from './sweeps.js'
import type { Database, Session } from './tables.js'
import { exact, isId, sha256 } from './texts.js'
import { transact } from './transact.js'

type Answers = Pick<Records, 'finishSweep' | 'getAnswer'>
type Answer = Parameters<Records['finishSweep']>[1]

/** A stored answer whose bytes are no longer those that were written. */
export class DamagedAnswer extends Error {
  override readonly name = 'DamagedAnswer'
  constructor(requestId: string) {
    super(`the stored answer of request ${requestId} does not match its checksum`)
  }
}

export function answers(db: Database): Answers {
  return {
    finishSweep: (id, answer, mail, { requireConfirmed }) =>
      transact(db, async (transaction) => {
        if (!(await endSweep(transaction, id, 'answered', null))) return false
        const requestId = await insertAnswer(transaction, id, answer)
        if (mail !== null) {
          const row = { ...mail, requestId, kind: 'answer' as const, answerHash: answer.answerHash }
          await addToOutbox(transaction, row, { requireConfirmed })
        }
        return true
      }),

    async getAnswer(requestId) {
      if (!isId(requestId)) return null
      const row = await db
        .selectFrom('ductwright.requests')
        .innerJoin('ductwright.answers', 'ductwright.answers.sweep_id', 'ductwright.requests.sweep_id')
        .select(['result', 'result_sha256', 'answer_hash', 'receipt'])
        .where('ductwright.requests.id', '=', requestId)
        .executeTakeFirst()
      if (row === undefined) return null
      if (sha256(row.result) !== row.result_sha256) throw new DamagedAnswer(requestId)
      return { result: row.result, answerHash: row.answer_hash, receipt: row.receipt }
    },
  }
}

async function insertAnswer(session: Session, sweepId: string, answer: Answer): Promise<string> {
  const sweep = await session
    .selectFrom('ductwright.sweeps')
    .select('request_id')
    .where('id', '=', sweepId)
    .executeTakeFirstOrThrow()
  await session
    .insertInto('ductwright.answers')
    .values({
      sweep_id: sweepId,
      request_id: sweep.request_id,
      result: exact('result', answer.result),
      result_sha256: sha256(answer.result),
      answer_hash: exact('answerHash', answer.answerHash),
      receipt: exact('receipt', answer.receipt),
    })
    .execute()
  return sweep.request_id
}
