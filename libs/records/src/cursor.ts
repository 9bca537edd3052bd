// The opaque cursor of a listing: where the last row of a page stood. Keyset paging: rows that arrive meanwhile neither
// repeat nor hide a row of the pages to come.

import type { Page } from './records.js'
import { isId } from './texts.js'

export interface Position {
  readonly createdAt: string
  readonly id: string
}

export function cursorAt(position: Position): string {
  return Buffer.from(`${position.createdAt} ${position.id}`, 'utf8').toString('base64url')
}

/** A page of `limit` rows from a reader that is asked for one more, which tells whether another page follows. */
export async function paged<Row extends Position>(
  limit: number,
  read: (most: number) => Promise<readonly Row[]>,
): Promise<Page<Row>> {
  if (!Number.isInteger(limit) || limit < 1) throw new RangeError(`limit: must be a whole number from 1, is ${limit}`)
  const found = await read(limit + 1)
  const rows = found.slice(0, limit)
  const last = rows.at(-1)
  return { rows, next: found.length > limit && last !== undefined ? cursorAt(last) : null }
}

/** `known`: what the ids of the listing look like. */
export function positionOf(cursor: string, known: (id: string) => boolean = isId): Position {
  const [createdAt = '', id = ''] = Buffer.from(cursor, 'base64url').toString('utf8').split(' ')
  if (
    !/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/.test(createdAt) ||
    !known(id) ||
    Number.isNaN(Date.parse(createdAt))
  ) {
    throw new RangeError('after: must be the `next` of an earlier page')
  }
  return { createdAt, id }
}
