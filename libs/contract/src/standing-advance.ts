// When a standing request runs again. Pure: the row as it is, the versions of now and a clock go in; the row as it becomes
// and, perhaps, the reason for a run come out. The store applies it under the row's lock, so that several workers, or one
// that died half-way, cannot start two runs for one change.
//
// A change opens a window; every further change opens it anew, up to a limit. When it closes, one run is started on the
// last version. Back at the version of the last answer, the window closes without a run: A to B to A says nothing.
import { type RunVersion, sameVersion } from './standing-version.js'

export type StandingState = 'active' | 'paused' | 'deleted'

/** Why a run was started. */
export type RunReason = 'first' | 'revision' | 'resumed' | 'catalogue' | 'model' | 'schedule'

/** The part of a standing request that moves; times in ms of one clock. */
export interface StandingMoves {
  readonly state: StandingState
  readonly revision: number
  readonly everyDays: number | null
  /** The versions last seen. */
  readonly seen: RunVersion | null
  /** When what is seen last changed, and when the first change of the open window was seen. */
  readonly changedAt: number | null
  readonly firstChangedAt: number | null
  /** What the last ended run was about. */
  readonly settled: { readonly version: RunVersion; readonly revision: number } | null
  /** A run is under way. */
  readonly running: boolean
  /** Next run of the schedule. */
  readonly dueAt: number | null
}

export interface SettleWindow {
  /** Quiet time that closes the window. */
  readonly quietMs: number
  /** Changes that never pause are looked at after this long all the same. */
  readonly longestMs: number
}

export interface Advance {
  readonly moves: StandingMoves
  readonly run: RunReason | null
}

const dayMs = 86_400_000

/** `confirmed`: the owner of the mailbox has agreed; until then only the first question of each revision is answered. */
export function advanceStanding(
  before: StandingMoves,
  current: RunVersion,
  now: number,
  window: SettleWindow,
  confirmed: boolean,
): Advance {
  if (before.state !== 'active') return { moves: before, run: null }
  const moves = look(before, current, now)
  if (moves.running) return { moves, run: null }
  const asked = askedReason(moves)
  if (asked !== null) return start(moves, asked, now)
  if (!confirmed) return { moves, run: null }
  if (moves.dueAt !== null && now >= moves.dueAt) return start(moves, 'schedule', now)
  return settle(moves, now, window)
}

/** What the end of a run, however it ended, leaves behind. */
export function settleRun(before: StandingMoves, run: { version: RunVersion; revision: number }): StandingMoves {
  return { ...before, running: false, settled: run }
}

function look(before: StandingMoves, current: RunVersion, now: number): StandingMoves {
  if (sameVersion(before.seen, current)) return before
  return { ...before, seen: current, changedAt: now, firstChangedAt: before.firstChangedAt ?? now }
}

/** A new question is answered at once: somebody waits for it. */
function askedReason({ settled, revision }: StandingMoves): RunReason | null {
  if (settled === null) return revision === 1 ? 'first' : 'revision'
  if (settled.revision === revision) return null
  return settled.revision < 0 ? 'resumed' : 'revision'
}

function settle(moves: StandingMoves, now: number, window: SettleWindow): Advance {
  const { seen, settled, changedAt, firstChangedAt } = moves
  if (settled === null || sameVersion(seen, settled.version)) return { moves: closed(moves), run: null }
  if (changedAt === null) return { moves: { ...moves, changedAt: now, firstChangedAt: now }, run: null }
  const quiet = now - changedAt >= window.quietMs || now - (firstChangedAt ?? changedAt) >= window.longestMs
  if (!quiet) return { moves, run: null }
  return start(moves, seen?.catalogue === settled.version.catalogue ? 'model' : 'catalogue', now)
}

/** The run is pinned to what is seen now. */
function start(moves: StandingMoves, reason: RunReason, now: number): Advance {
  const dueAt = moves.everyDays === null ? null : now + moves.everyDays * dayMs
  return { moves: { ...closed(moves), running: true, dueAt }, run: reason }
}

const closed = (moves: StandingMoves): StandingMoves => ({ ...moves, changedAt: null, firstChangedAt: null })
