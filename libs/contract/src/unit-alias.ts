// Spellings of units that people write and mathjs does not know, or reads as something else. Each points to a unit that
// mathjs does know, with a factor in front where no such unit exists. Source of the factors: NIST SP 811 (2008),
// appendix B: 1 mile = 1609.344 m, 1 knot = 1852 m in an hour, both exact.

export interface UnitAlias {
  readonly factor: number
  /** Name mathjs understands. */
  readonly unit: string
}

const spellings: Readonly<Record<string, readonly string[]>> = {
  'km/h': ['kph', 'kmh', 'kmph', 'km/hr', 'km/hour'],
  'mi/h': ['mph', 'mi/hr', 'mile/h', 'miles/h'],
  'm/s': ['m/sec', 'mps'],
  'ft/s': ['fps', 'ft/sec'],
  m: ['metre', 'metres', 'meters'],
  km: ['kms', 'kilometre', 'kilometres'],
  ft: ['foot', 'feet'],
  in: ['inch', 'inches'],
  lb: ['lbs', 'pound', 'pounds'],
  oz: ['ounce', 'ounces'],
  kg: ['kgs', 'kilo', 'kilos'],
  s: ['sec', 'secs', 'second', 'seconds'],
  min: ['mins', 'minute', 'minutes'],
  h: ['hr', 'hrs', 'hour', 'hours'],
  degC: ['°c', 'ºc', '℃', 'celsius', 'degc'],
  degF: ['°f', 'ºf', '℉', 'fahrenheit', 'degf'],
  K: ['°k', 'kelvin'],
  deg: ['°', 'º', 'degree', 'degrees'],
}

/** Where a capital letter is another prefix, only this spelling counts. */
const exact: Readonly<Record<string, string>> = { mOhm: 'mohm', mΩ: 'mohm' }

const scaled: Readonly<Record<string, UnitAlias>> = {
  kn: { factor: 1.852, unit: 'km/h' },
  kt: { factor: 1.852, unit: 'km/h' },
  kts: { factor: 1.852, unit: 'km/h' },
  knot: { factor: 1.852, unit: 'km/h' },
  knots: { factor: 1.852, unit: 'km/h' },
  rpm: { factor: 1, unit: 'cycle/min' },
}

/** Letters that mean one thing among temperatures and another elsewhere (mathjs reads C as coulomb, F as farad). */
const temperatures: Readonly<Record<string, string>> = { C: 'degC', c: 'degC', F: 'degF', f: 'degF', K: 'K', k: 'K' }

const byName = new Map<string, UnitAlias>([
  ...Object.entries(spellings).flatMap(([unit, names]) =>
    [unit, ...names].map((name) => [name.toLowerCase(), { factor: 1, unit }] as const),
  ),
  ...Object.entries(scaled),
])

/** The mathjs unit meant by what was written; an unlisted spelling is passed on as it is. */
export function resolveUnit(written: string, dimension: string): UnitAlias {
  const meant = (dimension === 'temperature' ? temperatures[written] : undefined) ?? exact[written]
  if (meant !== undefined) return { factor: 1, unit: meant }
  const neat = written.replace(/²/g, '^2').replace(/³/g, '^3').replaceAll('·', '*').replace(/[μµ]/g, 'u')
  return byName.get(written.toLowerCase()) ?? { factor: 1, unit: neat }
}
