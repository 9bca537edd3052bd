// Runs of a standing request: one at a time, pinned to a version, started once however many ask, and told once.

import type { OpenRecords } from '@ductwright/records/open-records'
import { describe, expect, it } from 'vitest'
import { answer, answerRun, atOnce, catalogueVersion, hash, newMail, newStanding, run, stand } from '../samples.js'

const at = (model: string) => ({ catalogue: catalogueVersion, model })

export function standingRunsSuite(records: () => OpenRecords): void {
  const runOf = async (id: string, model: string) => (await run(records(), id, at(model))) ?? expect.unreachable()
  const mailsOf = (id: string) => records().mailsOfStanding(id, 50)

  describe('a run', () => {
    it('is a request of its own, pinned to the versions it was started on', async () => {
      const row = await stand(records())
      const started = await runOf(row.id, '1')
      expect(started).toMatchObject({
        body: row.body,
        address: row.address,
        standing: { id: row.id, revision: 1, reason: 'first' },
        batch: null,
      })
      expect(await records().getSweep(started.sweepId)).toMatchObject({ catalogueVersion, modelVersion: '1' })
      expect(await records().getStanding(row.id)).toMatchObject({ runId: started.id, seen: at('1') })
      await answerRun(records(), started, 'h1')
      expect(await records().getStanding(row.id)).toMatchObject({ runId: null, settled: { ...at('1'), revision: 1 } })
      expect(await records().runsOf(row.id, 10)).toMatchObject([
        { id: started.id, reason: 'first', state: 'answered', version: at('1'), answerHash: 'h1' },
      ])
    })

    it('is started once when many workers look at the same moment', async () => {
      const { id } = await stand(records())
      const looks = Array.from({ length: 10 }, () => records().advanceStanding(id, at('1'), atOnce))
      const started = (await Promise.all(looks)).filter((each) => each !== null)
      expect(started).toHaveLength(1)
      expect(await records().runsOf(id, 10)).toHaveLength(1)
      expect((await records().unfinished()).unplanned).toContain(started[0]?.sweepId)
    })

    it('follows a change of version after a quiet time, and none follows a change back', async () => {
      const { id } = await stand(records())
      await answerRun(records(), await runOf(id, '1'), 'h1')
      const patient = { ...atOnce, quietMs: 3_600_000, longestMs: 7_200_000 }
      expect(await records().restlessStanding(at('1'))).not.toContain(id)
      expect(await records().restlessStanding(at('2'))).toContain(id)
      expect(await records().advanceStanding(id, at('2'), patient)).toBeNull()
      expect(await records().getStanding(id)).toMatchObject({ settling: true, seen: at('2') })
      expect(await records().advanceStanding(id, at('1'), patient)).toBeNull()
      expect(await records().getStanding(id)).toMatchObject({ settling: false, seen: at('1') })
      expect(await records().advanceStanding(id, at('1'), atOnce)).toBeNull()
      expect(await records().advanceStanding(id, at('3'), atOnce)).not.toBeNull()
      expect(await records().runsOf(id, 10)).toMatchObject([{ reason: 'model', version: at('3') }, { reason: 'first' }])
    })

    it('of the schedule comes when it is due', async () => {
      const { id } = await stand(records(), { everyDays: 2 })
      await answerRun(records(), await runOf(id, '1'), 'h1')
      expect(await run(records(), id, at('1'))).toBeNull()
      await records().pool.query('update ductwright.standing_requests set due_at = clock_timestamp() where id = $1', [
        id,
      ])
      expect(await records().restlessStanding(at('1'))).toContain(id)
      expect(await runOf(id, '1')).toMatchObject({ standing: { reason: 'schedule' } })
      const { dueAt = null } = (await records().getStanding(id)) ?? {}
      expect(Date.parse(dueAt ?? '') - Date.now()).toBeGreaterThan(1.9 * 86_400_000)
    })

    it('that fails or is cancelled leaves the standing request ready for the next change', async () => {
      const { id } = await stand(records())
      await records().failSweep((await runOf(id, '1')).sweepId, 'the part is gone')
      expect(await records().getStanding(id)).toMatchObject({ runId: null, lastCause: 'the part is gone' })
      expect(await run(records(), id, at('1'))).toBeNull()
      const second = await runOf(id, '2')
      expect(await records().cancelRequest(second.id)).toBe(true)
      expect(await records().getStanding(id)).toMatchObject({ runId: null, lastCause: null, settled: at('2') })
    })

    it('waits for the owner of the mailbox, except the first', async () => {
      const { id, address } = await stand(records())
      const strict = { ...atOnce, requireConfirmed: true }
      await answerRun(records(), (await run(records(), id, at('1'), strict)) ?? expect.unreachable(), 'h1')
      expect(await run(records(), id, at('2'), strict)).toBeNull()
      await records().pool.query(
        "insert into ductwright.addresses (address, token_hash, state) values ($1, $2, 'confirmed')",
        [address, hash(address ?? '')],
      )
      expect(await run(records(), id, at('2'), strict)).not.toBeNull()
    })

    it('keeps rows bounded, and the run last mailed among them', async () => {
      const { id } = await stand(records())
      const told = await runOf(id, '0')
      await answerRun(records(), told, 'h')
      await records().pool.query("update ductwright.outbox set state = 'accepted' where request_id = $1", [told.id])
      for (let n = 1; n <= 16; n++) await answerRun(records(), await runOf(id, `${n}`), 'h')
      const runs = await records().runsOf(id, 100)
      expect(runs.length).toBeLessThan(16)
      expect(runs.map((each) => each.id)).toContain(told.id)
    })
  })

  describe('telling the owner', () => {
    it('happens for an answer that is not known yet, and for no other', async () => {
      const { id } = await stand(records())
      await answerRun(records(), await runOf(id, '1'), 'h1')
      await answerRun(records(), await runOf(id, '2'), 'h1')
      expect(await mailsOf(id)).toHaveLength(1)
      const changed = await runOf(id, '3')
      await answerRun(records(), changed, 'h2')
      expect(await mailsOf(id)).toHaveLength(2)
      expect(await records().getStanding(id)).toMatchObject({ toldHash: 'h2', toldRunId: changed.id })
      await answerRun(records(), await runOf(id, '1'), 'h1')
      expect(await mailsOf(id)).toHaveLength(3)
    })

    it('is taken back whole when something else was told since the mail was composed', async () => {
      const { id } = await stand(records())
      await answerRun(records(), await runOf(id, '1'), 'h1')
      const second = await runOf(id, '2')
      const stale = records().finishSweep(second.sweepId, { ...answer, answerHash: 'h2' }, newMail(), {
        requireConfirmed: false,
        told: 'h0',
      })
      await expect(stale).rejects.toMatchObject({ name: 'StaleMail' })
      expect(await records().getRequest(second.id)).toMatchObject({ state: 'running' })
      expect(await records().getAnswer(second.id)).toBeNull()
      expect(await answerRun(records(), second, 'h2')).toBe(true)
      expect(await mailsOf(id)).toHaveLength(2)
    })

    it('does not happen for an older revision, nor while paused, and a revision is told its answer whatever it is', async () => {
      const { id } = await stand(records())
      await answerRun(records(), await runOf(id, '1'), 'h1')
      const late = await runOf(id, '2')
      await records().reviseStanding(id, null, newStanding())
      await answerRun(records(), late, 'h2')
      expect(await mailsOf(id)).toHaveLength(1)
      await answerRun(records(), await runOf(id, '2'), 'h1')
      expect(await mailsOf(id)).toHaveLength(2)
      const paused = await runOf(id, '3')
      await records().setStandingState(id, 'paused')
      await answerRun(records(), paused, 'h3')
      expect(await mailsOf(id)).toHaveLength(2)
      await records().setStandingState(id, 'active')
      await answerRun(records(), await runOf(id, '3'), 'h3')
      expect(await mailsOf(id)).toHaveLength(3)
    })

    it('that there is no answer any more happens once, and the next answer is told again', async () => {
      const { id } = await stand(records())
      await answerRun(records(), await runOf(id, '1'), 'h1')
      const trouble = async (model: string) => {
        const { sweepId, address } = await runOf(id, model)
        const { toldHash = null } = (await records().getStanding(id)) ?? {}
        const mail = { ...newMail(address ?? ''), kind: 'trouble' as const }
        await records().failSweep(sweepId, 'the part is gone', mail, { requireConfirmed: false, told: toldHash })
      }
      await trouble('2')
      await trouble('3')
      expect((await mailsOf(id)).map((mail) => mail.kind).sort()).toEqual(['answer', 'trouble'])
      await answerRun(records(), await runOf(id, '4'), 'h1')
      expect(await mailsOf(id)).toHaveLength(3)
    })
  })
}
