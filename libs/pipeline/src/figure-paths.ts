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
type Entry = Readonly<Record<string, unknown>>

function nameOf(entry: Entry): unknown {
  return entry['criterion'] ?? entry['limit']
}

function collectList(entries: readonly Entry[], path: string, found: Map<string, number>): void {
  for (const entry of entries) {
    const name = nameOf(entry)
    const value = entry['margin'] ?? entry['used']
    if (typeof name === 'string' && typeof value === 'number') found.set(`${path}.${name}`, value)
  }
}

/** Places of paths in a list, as the figures are nested. */
type Places = Map<string, number | Places>

/** Reads the numbers of some paths from any figures, in the order of the paths; NaN where there is none. */
export function figureReader(paths: readonly string[]): (figures: SetupFigures) => Float64Array {
  const places: Places = new Map()
  for (const [place, path] of paths.entries()) setPlace(places, path.split('.'), place)
  return (figures) => {
    const numbers = new Float64Array(paths.length).fill(Number.NaN)
    read(figures as unknown as Readonly<Record<string, unknown>>, places, numbers)
    return numbers
  }
}

function setPlace(places: Places, [key = '', ...rest]: readonly string[], place: number): void {
  if (rest.length === 0) {
    places.set(key, place)
    return
  }
  const inside = places.get(key)
  const within: Places = inside instanceof Map ? inside : new Map()
  places.set(key, within)
  setPlace(within, rest, place)
}

function read(node: Readonly<Record<string, unknown>>, places: Places, numbers: Float64Array): void {
  for (const [key, place] of places) {
    const value = node[key]
    if (typeof place === 'number') {
      if (typeof value === 'number') numbers[place] = value
    } else if (Array.isArray(value)) readList(value, place, numbers)
    else if (typeof value === 'object' && value !== null) read(value as Record<string, unknown>, place, numbers)
  }
}

function readList(entries: readonly Entry[], places: Places, numbers: Float64Array): void {
  for (const entry of entries) {
    const place = places.get(nameOf(entry) as string)
    const value = entry['margin'] ?? entry['used']
    if (typeof place === 'number' && typeof value === 'number') numbers[place] = value
  }
}
