// Answers: the end of a sweep in one transaction. Result, receipt, the request's end and the mail to its owner are
// stored together or not at all; the unique pair (request, answer hash) keeps a second mail for one answer out.

import { keepFront } from './kept-fronts.js'
import type { NewAnswer, Records } from './records.js'
import { endSweep } from './sweeps.js'
import type { Database, Session } from './tables.js'
import { tell } from './telling.js'
import { exact, isId, sha256 } from './texts.js'
import { transact } from './transact.js'

type Answers = Pick<Records, 'finishSweep' | 'failSweep' | 'getAnswer'>

/** A stored answer whose bytes are no longer those that were written. */
export class DamagedAnswer extends Error {
  override readonly name = 'DamagedAnswer'
  constructor(requestId: string) {
    super(`the stored answer of request ${requestId} does not match its checksum`)
  }
}

export function answers(db: Database): Answers {
  return {
    finishSweep: (id, answer, mail, options) =>
      transact(db, async (transaction) => {
        const ended = await endSweep(transaction, id, 'answered', null)
        if (ended === null) return false
        await insertAnswer(transaction, id, ended.requestId, answer)
        // What they found is in the answer now.
        await transaction.deleteFrom('ductwright.shards').where('sweep_id', '=', id).execute()
        if (answer.kept !== undefined && ended.standing !== null)
          await keepFront(transaction, ended.standing.id, ended.version, answer.kept)
        const telling = { ...ended, hash: answer.answerHash, isAnswer: true }
        if (mail !== null) await tell(transaction, telling, mail, options)
        return true
      }),

    failSweep: (id, cause, mail = null, options = { requireConfirmed: false }) =>
      transact(db, async (transaction) => {
        const ended = await endSweep(transaction, id, 'failed', cause)
        if (ended === null) return false
        const telling = { ...ended, hash: troubleHash(cause), isAnswer: false }
        if (mail !== null) await tell(transaction, telling, mail, options)
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

/** Stands in for the hash of an answer when what is told is why there is none. */
export const troubleHash = (cause: string): string => `none ${sha256(cause)}`

async function insertAnswer(session: Session, sweepId: string, requestId: string, answer: NewAnswer): Promise<void> {
  await session
    .insertInto('ductwright.answers')
    .values({
      sweep_id: sweepId,
      request_id: requestId,
      result: exact('result', answer.result),
      result_sha256: sha256(answer.result),
      answer_hash: exact('answerHash', answer.answerHash),
      receipt: exact('receipt', answer.receipt),
      summary: answer.summary === undefined ? null : exact('summary', answer.summary),
    })
    .execute()
}
