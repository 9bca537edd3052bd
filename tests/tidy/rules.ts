// What the style test allows: the order of the packages, files that may be long, works a comment may cite, and the
// endings of a column name that are units.

/** A package may import one of lower rank, and the ones named. */
export const RANKS: Readonly<Record<string, { readonly rank: number; readonly also: readonly string[] }>> = {
  models: { rank: 0, also: [] },
  catalogue: { rank: 1, also: [] },
  contract: { rank: 2, also: [] },
  pipeline: { rank: 3, also: [] },
  records: { rank: 4, also: [] },
  report: { rank: 4, also: [] },
  log: { rank: 4, also: [] },
  // Jobs live in the records' own Postgres, so the queue takes that pool.
  queue: { rank: 4, also: ['records'] },
  api: { rank: 5, also: [] },
  worker: { rank: 5, also: [] },
  cli: { rank: 6, also: [] },
}

/** Files that may be longer than the rest, each with the reason. */
export const LONG_FILES: Readonly<Record<string, string>> = {
  'libs/models/src/evaluation/evaluator.ts': 'the stages of one evaluation in order: the inner loop of a sweep',
  'libs/contract/src/result.ts': 'the whole answer as one shape, read from top to bottom by whoever reads an answer',
  'libs/contract/src/result-schema.ts': 'the same shape as a schema, field for field in the order of result.ts',
}

/** How a comment cites a work: by these words, which docs/sources.md lists. */
export const RECOGNISED_WORKS: readonly RegExp[] = [
  /\b(?:ISO|IEC) \d{4,5}(?:-\d)?(?::\d{4})?/g,
  /\bRFC \d{3,5}/g,
  /\bASTM B\d+/g,
  /\bNACA (?:TN|RM|Rep\.) ?[A-Z]?\d+(?:[A-Z]\d+)?/g,
  /\bNACA \d{4}\b/g,
  /\bJCGM \d+:\d{4}/g,
  /\bDOI 10\.\d+\/[\w.]*\w/g,
  /\b(?:LM2735-Q1|LMR12015|64AN035E|DTLZ\d|ITTC-57)\b/g,
  /\b(?:Dixon|Arasu|Leishman|McCormick|Anderson|de Haller|Lieblein|Ackeret|maxon|Churchill|Bernstein)\b|Çengel/g,
  /\b(?:Blasius|Prandtl|Schlichting|Raymer|Hoerner|Sadraey|Martin|Hodges|Pierce|Megson|Bredt|Rincón-Mora)\b/g,
  /\b(?:Derringer|Suich|Das–Dennis|Das 1999|Kung|Gray|Levenberg|Marquardt|Wilson|Hilferty|Halton|Owen|Wichura|AS 241)\b/g,
  /\b(?:Steele|Hyndman|Saltelli|National Test Pilot School)\b/g,
]

/** Endings that say the unit, after an underscore; a rate ends in `_per_` and its unit. */
export const UNIT_SUFFIXES: readonly string[] = [
  ...['mm', 'cm2', 'dm2', 'm2', 'm_s', 'km_h', 'g', 'kg', 'ns', 's', 'hz', 'khz', 'rpm', 'deg'],
  ...['a', 'v', 'w', 'mah', 'mohm', 'n', 'nm', 'c', 'percent', 'rpm_per_v', 'a_per_krpm', 'percent_per_k'],
  ...['j_per_k', 'w_per_k', 'nm2', 'per_rad', 'nm_per_rad', 'awg', 'g_cm2'],
]

/** Columns that are names, words, counts or dimensionless numbers; prices are in the currency beside them. */
export const UNITLESS_COLUMNS: ReadonlySet<string> = new Set([
  ...['id', 'fan_id', 'motor_id', 'maker', 'name', 'material', 'launch', 'connector', 'design_speed_basis'],
  ...['price', 'currency', 'dated', 'receiver_supply_id', 'receiver_supply_name', 'receiver_supply_price'],
  ...['cells', 'cells_min', 'cells_max', 'pole_pairs', 'oswald_factor', 'lift_coefficient_max'],
  ...['duct_loss', 'inlet_loss', 'lip_loss', 'ram_recovery', 'pressure_rise_at_zero_flow', 'pressure_rise_slope'],
  ...['peak_efficiency_flow_coefficient', 'efficiency_curvature'],
  ...['airframe_id', 'lift_coefficient_max_flaps', 'wing_taper', 'tail_taper', 'wing_interference'],
  ...['tail_interference', 'body_interference', 'body_fineness', 'roughness', 'freewheel', 'hours'],
])
