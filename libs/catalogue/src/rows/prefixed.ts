// Columns that several things of a row share, such as wing and tail: the same names behind the name of each thing.
import type * as z from 'zod'

type Prefixed<Prefix extends string, Columns> = {
  [Column in keyof Columns & string as `${Prefix}_${Column}`]: Columns[Column]
}

/** The columns with `prefix` and an underscore before each name, in the same order. */
export function prefixed<const Prefix extends string, Columns extends Readonly<Record<string, z.ZodType>>>(
  prefix: Prefix,
  columns: Columns,
): Prefixed<Prefix, Columns> {
  const named = Object.entries(columns).map(([column, cell]) => [`${prefix}_${column}`, cell])
  return Object.fromEntries(named) as Prefixed<Prefix, Columns>
}
