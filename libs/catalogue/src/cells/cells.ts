// A row of a table as it would be written: column → cell, in the units of the tables. The way back from the SI parts, so
// that two rows can be compared, and shown, in the columns their owner knows. Twelve digits: what a table holds comes back
// as it was written, without the last bits of a conversion.

export type Cell = string | number | null

/** Column → cell; null: left empty. */
export type Cells = Readonly<Record<string, Cell>>

/** Cells of every column of a table but the currency, which the whole catalogue has. */
export type CellsOf<Columns> = { readonly [Column in Exclude<keyof Columns, 'currency'>]: Cell }

const DIGITS = 12

/** A number without the last bits of a conversion; null for null. */
export function tidy(value: number): number {
  return Number.isFinite(value) ? Number(value.toPrecision(DIGITS)) : value
}
