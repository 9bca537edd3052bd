// Reads one JSON document from a file, or from standard input when the file is named `-`.
import { readFile } from 'node:fs/promises'
import { UsageError } from './complaint.js'

/** Larger than any honest request, small enough to refuse a wrong file at once. */
const LARGEST_INPUT_BYTES = 4 * 1024 * 1024

export async function readJson(path: string): Promise<unknown> {
  const name = path === '-' ? 'standard input' : path
  const text = path === '-' ? await readStandardInput() : await readText(path)
  if (Buffer.byteLength(text) > LARGEST_INPUT_BYTES) throw tooLarge(name)
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

async function readStandardInput(): Promise<string> {
  const pieces: Buffer[] = []
  let length = 0
  for await (const piece of process.stdin) {
    pieces.push(piece as Buffer)
    length += (piece as Buffer).length
    if (length > LARGEST_INPUT_BYTES) throw tooLarge('standard input')
  }
  return Buffer.concat(pieces).toString('utf8')
}

function tooLarge(name: string): UsageError {
  return new UsageError(`${name}: larger than ${LARGEST_INPUT_BYTES} bytes, which no request is`)
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
