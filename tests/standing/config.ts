// How many random edits of a catalogue the silence of standing requests is held against brute force over: some hundreds in
// every test run, ten thousand and more when a soak asks.
const USUAL_EDITS = 1500

export function catalogueEdits(): number {
  const named = process.env['CATALOGUE_EDITS']
  if (named === undefined) return USUAL_EDITS
  if (!/^[1-9]\d{0,8}$/.test(named)) {
    throw new RangeError(`CATALOGUE_EDITS must be a whole number above 0, got "${named}"`)
  }
  return Number(named)
}
