// The units this service documents its numbers in, and how each becomes what the models want (SI). A plain number, and a
// text in the documented unit, take this road and never load the unit library.
import { ZERO_CELSIUS } from '@ductwright/models/constants'

export interface DocumentedUnit {
  readonly dimension: string
  /** The same unit as mathjs spells it; null for pure numbers. */
  readonly mathjs: string | null
  readonly toSi: (value: number) => number
  /** Texts that are read as this quantity, for messages. */
  readonly examples: readonly string[]
}

const same = (value: number): number => value

export const documentedUnits = {
  'km/h': {
    dimension: 'speed',
    mathjs: 'km/h',
    toSi: (value) => value / 3.6,
    examples: ['360 km/h', '224 mph', '100 m/s'],
  },
  m: { dimension: 'length', mathjs: 'm', toSi: same, examples: ['120 m', '300 ft'] },
  kg: { dimension: 'mass', mathjs: 'kg', toSi: same, examples: ['3.5 kg', '7.5 lb'] },
  s: { dimension: 'time', mathjs: 's', toSi: same, examples: ['10 s', '0.5 min'] },
  min: { dimension: 'time', mathjs: 'min', toSi: (value) => value * 60, examples: ['4 min', '240 s'] },
  '°C': {
    dimension: 'temperature',
    mathjs: 'degC',
    toSi: (value) => value + ZERO_CELSIUS,
    examples: ['20 °C', '59 °F', '288 K'],
  },
  mΩ: { dimension: 'resistance', mathjs: 'mohm', toSi: (value) => value / 1000, examples: ['1.4 mΩ', '0.0014 ohm'] },
  // Kept in degrees: a setup on the wire and inside carries timing_deg.
  '°': { dimension: 'angle', mathjs: 'deg', toSi: same, examples: ['15°', '0.26 rad'] },
  share: { dimension: 'share', mathjs: null, toSi: same, examples: ['0.25', '25 %'] },
  ratio: { dimension: 'pure number', mathjs: null, toSi: same, examples: ['6'] },
} as const satisfies Record<string, DocumentedUnit>

export type DocumentedUnitName = keyof typeof documentedUnits

/** `360 km/h`, `15 °C`, `0.25`: a number in its documented unit, for people. */
export function inUnit(value: number, unit: DocumentedUnitName): string {
  if (unit === 'share' || unit === 'ratio') return String(value)
  return unit === '°' ? `${value}°` : `${value} ${unit}`
}
