// How large the tables of a catalogue may be. Judged by the size alone, before a byte is read: a file of the wrong kind
// is refused at once and costs nothing.
import type { CatalogueFault } from './catalogue-fault.js'

const MEBI = 1024 * 1024

/** One table. A row is about 200 bytes, so this holds as many of them as are read. */
export const FILE_LIMIT_BYTES = 2 * MEBI
/** All tables of one upload together. */
export const UPLOAD_LIMIT_BYTES = 4 * MEBI
/** Rows of one table, and rows of one patch: several times what all makers of one kind of part offer. */
export const ROW_LIMIT = 10_000

/** Faults of files too large to be read. */
export function sizeFaults(sizes: Readonly<Record<string, number>>): CatalogueFault[] {
  const entries = Object.entries(sizes)
  const single = entries.flatMap(([file, size]) =>
    size > FILE_LIMIT_BYTES ? [tooLarge(file, size, FILE_LIMIT_BYTES)] : [],
  )
  const all = entries.reduce((sum, [, size]) => sum + size, 0)
  return single.length > 0 || all <= UPLOAD_LIMIT_BYTES
    ? single
    : [tooLarge('all files together', all, UPLOAD_LIMIT_BYTES)]
}

function tooLarge(file: string, size: number, most: number): CatalogueFault {
  const message = `is larger than ${most / MEBI} MiB, the most that is read`
  return { file, line: 0, column: '', rule: 'size', value: `${(size / MEBI).toFixed(1)} MiB`, message }
}

/** UTF-8 text; bytes that are none become U+FFFD, which the table reader refuses with the line they stand on. */
export function tableText(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes)
}
