// Every number in the figures of a setup by its path, such as `top.thrust_n` or `margins.wing-flutter`: what bands are given of.
import type { SetupFigures } from '@ductwright/contract/result'

/** Quality of the solution and a count of cells: nothing that scatters. */
const WITHOUT_BAND = new Set(['residual', 'cells'])

/** Path → number, in the order of the figures; entries of lists go by their name. */
export function numbersOf(figures: SetupFigures): Map<string, number> {
  const found = new Map<string, number>()
  collect(figures as unknown as Readonly<Record<string, unknown>>, '', found)
  return found
}

function collect(node: Readonly<Record<string, unknown>>, prefix: string, found: Map<string, number>): void {
  for (const [key, value] of Object.entries(node)) {
    const path = `${prefix}${key}`
    if (WITHOUT_BAND.has(path)) continue
    if (typeof value === 'number') found.set(path, value)
    else if (Array.isArray(value)) collectList(value, path, found)
    else if (typeof value === 'object' && value !== null) collect(value as Record<string, unknown>, `${path}.`, found)
  }
}

/** Margins and limits: one number each, under the name of what it belongs to. */
function collectList(
  entries: readonly Readonly<Record<string, unknown>>[],
  path: string,
  found: Map<string, number>,
): void {
  for (const entry of entries) {
    const name = entry['criterion'] ?? entry['limit']
    const value = entry['margin'] ?? entry['used']
    if (typeof name === 'string' && typeof value === 'number') found.set(`${path}.${name}`, value)
  }
}
