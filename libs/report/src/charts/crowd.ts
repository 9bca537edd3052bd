// Marks so close that one would cover the other are drawn once, so that a list of thousands stays readable and small.

/** The first item of each cell, in the order of the items. */
export function onePerCell<Item>(
  items: readonly Item[],
  placesOf: (item: Item) => readonly number[],
  cell: number,
): Item[] {
  const taken = new Set<string>()
  return items.filter((item) => {
    const key = placesOf(item)
      .map((place) => Math.floor(place / cell))
      .join()
    if (taken.has(key)) return false
    taken.add(key)
    return true
  })
}
