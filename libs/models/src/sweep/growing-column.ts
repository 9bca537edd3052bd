// Columns that grow while a sweep runs.

/** Doubled, with its values at the start. */
export function doubled<Column extends Float64Array<ArrayBuffer> | Int32Array<ArrayBuffer> | Uint16Array<ArrayBuffer>>(
  column: Column,
): Column {
  const larger = new (column.constructor as new (length: number) => Column)(column.length * 2)
  larger.set(column)
  return larger
}
