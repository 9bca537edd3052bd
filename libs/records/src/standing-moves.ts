// The moving part of a standing request's row, read into the state machine and written back.
import type { StandingMoves } from '@ductwright/contract/standing-advance'
import type { RunVersion } from '@ductwright/contract/standing-version'
import type { Selectable } from 'kysely'
import type { StandingRow } from './standing-records.js'
import type { StandingRequestsTable } from './standing-tables.js'

type Row = Selectable<StandingRequestsTable>

export function settingOf(row: Row): { readonly moves: StandingMoves; readonly settled: StandingRow['settled'] } {
  const settled = versionOf(row.settled_catalogue, row.settled_model)
  const revision = row.settled_revision
  return {
    moves: {
      state: row.state,
      revision: row.revision,
      everyDays: row.every_days,
      seen: versionOf(row.seen_catalogue, row.seen_model),
      changedAt: row.changed_at?.getTime() ?? null,
      firstChangedAt: row.first_changed_at?.getTime() ?? null,
      settled: settled === null || revision === null ? null : { version: settled, revision },
      running: row.run_id !== null,
      dueAt: row.due_at?.getTime() ?? null,
    },
    settled: settled === null || revision === null ? null : { ...settled, revision },
  }
}

/** Columns that say the same; `run_id` is left to whoever knows the run. */
export function columnsOf({ seen, changedAt, firstChangedAt, settled, dueAt }: StandingMoves) {
  return {
    seen_catalogue: seen?.catalogue ?? null,
    seen_model: seen?.model ?? null,
    changed_at: timeOf(changedAt),
    first_changed_at: timeOf(firstChangedAt),
    settled_catalogue: settled?.version.catalogue ?? null,
    settled_model: settled?.version.model ?? null,
    settled_revision: settled?.revision ?? null,
    due_at: timeOf(dueAt),
  }
}

function versionOf(catalogue: string | null, model: string | null): RunVersion | null {
  return catalogue === null || model === null ? null : { catalogue, model }
}

const timeOf = (milliseconds: number | null): string | null =>
  milliseconds === null ? null : new Date(milliseconds).toISOString()
