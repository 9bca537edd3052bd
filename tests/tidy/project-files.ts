// The files of the project as a clone holds them: everything but what is installed, built or written at run time.
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'

export const projectFolder = fileURLToPath(new URL('../..', import.meta.url))

const SKIPPED_ANYWHERE = new Set(['.git', 'node_modules', 'dist', '.cache', 'coverage'])
const SKIPPED_AT_TOP = new Set(['data'])

/** Paths relative to the project folder, sorted. */
export function projectFiles(): string[] {
  return walk(projectFolder)
    .map((path) => relative(projectFolder, path).split('\\').join('/'))
    .filter((path) => !/\.(log|tsbuildinfo)$/.test(path))
    .sort()
}

export function read(file: string): string {
  return readFileSync(join(projectFolder, file), 'utf8')
}

function walk(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    if (SKIPPED_ANYWHERE.has(entry.name)) return []
    if (folder === projectFolder && SKIPPED_AT_TOP.has(entry.name)) return []
    const path = join(folder, entry.name)
    return entry.isDirectory() ? walk(path) : [path]
  })
}
