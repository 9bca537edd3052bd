// Reads one JSON document from a file, or from standard input when the file is named `-`.
import { readFile } from 'node:fs/promises'
import { UsageError } from './complaint.js'

/** Larger than any honest request, small enough to refuse a wrong file at once. */
const LARGEST_INPUT_BYTES = 4 * 1024 * 1024

/** @param most bytes of the document */
export async function readJson(path: string, most = LARGEST_INPUT_BYTES): Promise<unknown> {
  const name = path === '-' ? 'standard input' : path
  const text = path === '-' ? await readStandardInput(most) : await readText(path)
  if (Buffer.byteLength(text) > most) throw tooLarge(name, most)
  try {
    return JSON.parse(text) as unknown
  } catch (error) {
    throw new UsageError(`${name}: not JSON: ${(error as Error).message}`)
  }
}

async function readText(path: string): Promise<string> {
  try {
    return await readFile(path, 'utf8')
  } catch (error) {
    throw new UsageError(`${path}: cannot be read: ${reason(error as NodeJS.ErrnoException)}`)
  }
}

async function readStandardInput(most: number): Promise<string> {
  const pieces: Buffer[] = []
  let length = 0
  for await (const piece of process.stdin) {
    pieces.push(piece as Buffer)
    length += (piece as Buffer).length
    if (length > most) throw tooLarge('standard input', most)
  }
  return Buffer.concat(pieces).toString('utf8')
}

function tooLarge(name: string, most: number): UsageError {
  return new UsageError(`${name}: larger than ${most} bytes, which is more than such a document takes`)
}

/** A system error in words. */
export function reason(error: NodeJS.ErrnoException): string {
  if (error.code === 'ENOENT') return 'no such file or folder'
  if (error.code === 'EISDIR') return 'it is a folder'
  if (error.code === 'ENOTDIR') return 'it is not a folder'
  if (error.code === 'EEXIST') return 'it is a file'
  if (error.code === 'EACCES') return 'permission denied'
  if (error.code === 'EROFS') return 'it may only be read'
  if (error.code === 'ENOSPC') return 'no space is left'
  return error.message
}
