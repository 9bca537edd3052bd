// Nearest known names for a name nobody knows, for the "did you mean" of an error message. Pure and bounded: names are
// cut at 64 characters, so the work per known name is at most 64 × 64 steps. Distance is optimal string alignment
// (insert, delete, replace, swap of neighbours), blind to case and to the difference between - and _.

const LONGEST = 64

function plain(name: string): string {
  return name.slice(0, LONGEST).toLowerCase().replaceAll('_', '-')
}

/** Edits that turn one text into the other. */
export function editDistance(from: string, to: string): number {
  let beforeLast: number[] = []
  let last = Array.from({ length: to.length + 1 }, (_, column) => column)
  for (let row = 1; row <= from.length; row++) {
    const current = [row]
    for (let column = 1; column <= to.length; column++) {
      const same = from[row - 1] === to[column - 1]
      let best = Math.min(last[column]! + 1, current[column - 1]! + 1, last[column - 1]! + (same ? 0 : 1))
      const swapped = row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1]
      if (swapped) best = Math.min(best, beforeLast[column - 2]! + 1)
      current.push(best)
    }
    beforeLast = last
    last = current
  }
  return last[to.length]!
}

/** Distance, with a shared beginning (`speed` and `speed-km-h`) counted as one edit. */
function closeness(name: string, known: string): number {
  const shorter = Math.min(name.length, known.length)
  if (shorter >= 3 && (known.startsWith(name) || name.startsWith(known))) return name === known ? 0 : 1
  return editDistance(name, known)
}

/** Up to `most` known names near enough to be meant, nearest first; ties in code-unit order. */
export function nearestNames(name: string, known: Iterable<string>, most = 3): string[] {
  const wanted = plain(name)
  const allowed = Math.max(1, Math.floor(wanted.length / 3))
  const near: { name: string; distance: number }[] = []
  for (const candidate of new Set(known)) {
    const distance = closeness(wanted, plain(candidate))
    if (distance <= allowed) near.push({ name: candidate, distance })
  }
  near.sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : 1))
  return near.slice(0, most).map((entry) => entry.name)
}

/** `; did you mean "a" or "b"?`, or nothing when no known name is near. */
export function didYouMean(name: string, known: Iterable<string>): string {
  const near = nearestNames(name, known, 2).map((entry) => `"${entry}"`)
  return near.length > 0 ? `; did you mean ${near.join(' or ')}?` : ''
}
