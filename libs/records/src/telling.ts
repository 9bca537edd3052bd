// What the owner of a standing request was last told, compared and set in the transaction that writes the mail: whatever
// dies or runs twice, a thing is told once.

import type { AnswerMail } from './mail-records.js'
import { addToOutbox } from './outbox.js'
import type { FinishOptions } from './records.js'
import { lockStanding } from './standing.js'
import type { Session } from './tables.js'

/** The mail was composed against something its reader has been told meanwhile: compose it again. */
export class StaleMail extends Error {
  override readonly name = 'StaleMail'
  constructor(standingId: string) {
    super(`the owner of standing request ${standingId} was told something else since this mail was composed`)
  }
}

export interface Telling {
  readonly requestId: string
  readonly standing: { readonly id: string; readonly revision: number } | null
  /** Hash of what is told. */
  readonly hash: string
  /** The mail carries an answer, which the next one is compared with. */
  readonly isAnswer: boolean
}

/** Nothing is written for a standing request that was paused, revised or deleted since its run began. */
export async function tell(session: Session, what: Telling, mail: AnswerMail, options: FinishOptions): Promise<void> {
  if (what.standing !== null && !(await isDue(session, what, options.told ?? null))) return
  const owner = { requestId: what.requestId }
  await addToOutbox(session, { kind: 'answer', ...mail, owner, answerHash: what.hash }, options)
}

async function isDue(session: Session, what: Telling, told: string | null): Promise<boolean> {
  const { id = '', revision = 0 } = what.standing ?? {}
  const row = await lockStanding(session, id)
  if (row === null || row.state !== 'active' || row.revision !== revision || row.mailed_hash === what.hash) return false
  if (row.mailed_hash !== told) throw new StaleMail(id)
  await session
    .updateTable('ductwright.standing_requests')
    .set({ mailed_hash: what.hash, ...(what.isAnswer ? { mailed_run_id: what.requestId } : {}) })
    .where('id', '=', id)
    .execute()
  return true
}
