// Package manifests and the imports between packages, as the style test reads them.
import { read } from './project-files.js'
import { RANKS } from './rules.js'

interface Manifest {
  readonly scripts?: Record<string, string>
  readonly dependencies?: Record<string, string>
  readonly devDependencies?: Record<string, string>
}

export function manifest(file: string): Manifest {
  return JSON.parse(read(file)) as Manifest
}

export function mayImport(from: string, to: string): boolean {
  const low = RANKS[to]
  const high = RANKS[from]
  return low !== undefined && high !== undefined && (from === to || low.rank < high.rank || high.also.includes(to))
}

export function packageName(specifier: string): string {
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/')
}

/** Short name of the package a file belongs to. */
export function packageOf(file: string): string {
  const [first, second] = file.split('/')
  return first === 'cli' ? 'cli' : (second ?? '')
}

export function imports(file: string): string[] {
  const forms = /^(?:import|export|\})[^'\n]* from '([^']+)'|^import '([^']+)'|\bimport\('([^']+)'\)/gm
  return [...read(file).matchAll(forms)].map((match) => match[1] ?? match[2] ?? match[3] ?? '')
}
