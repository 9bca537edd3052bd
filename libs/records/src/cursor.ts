// The opaque cursor of a listing: where the last row of a page stood. Keyset paging: rows that arrive meanwhile neither
// repeat nor hide a row of the pages to come.

import { isId } from './texts.js'

export interface Position {
  readonly createdAt: string
  readonly id: string
}

export function cursorAt(position: Position): string {
  return Buffer.from(`${position.createdAt} ${position.id}`, 'utf8').toString('base64url')
}

export function positionOf(cursor: string): Position {
  const [createdAt = '', id = ''] = Buffer.from(cursor, 'base64url').toString('utf8').split(' ')
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/.test(createdAt) || !isId(id) || Number.isNaN(Date.parse(createdAt))) {
    throw new RangeError('after: must be the `next` of an earlier page')
  }
  return { createdAt, id }
}
