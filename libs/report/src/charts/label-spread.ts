// Labels at line ends, moved apart so that none covers another: each as close to its line as the others allow, in the order
// of the lines, and within the area.

/** Places (px, any order) moved so that neighbours are at least `gap` apart and, where they fit, within low and high. */
export function spread(places: readonly number[], gap: number, low: number, high: number): readonly number[] {
  const order = places.map((_, i) => i).sort((a, b) => (places[a] as number) - (places[b] as number))
  const moved = [...places]
  const settle = (index: number, least: number): number => {
    moved[index] = Math.max(moved[index] as number, least)
    return (moved[index] as number) + gap
  }
  order.reduce((least, index) => settle(index, least), low)
  // Pushed beyond the lower edge: push the last ones back up.
  order.reduceRight((most, index) => {
    moved[index] = Math.min(moved[index] as number, most)
    return (moved[index] as number) - gap
  }, high)
  return moved
}
