// What the meters should read standing at full throttle of the setting, with the band of each reading and an empty column
// to write the measured figure into.
import { bare, type Quantity, range, unitOf } from '@ductwright/contract/figures'
import type { PointFigures, SetupFigures } from '@ductwright/contract/result'
import { bandOf, type NumberKey, type Study } from '../banded.js'
import type { Block, Section } from '../letter.js'

type Reading = readonly [label: string, key: NumberKey<PointFigures>, quantity: Quantity, unit: string, scale: number]

/** Newtons that a spring balance shows as one kilogram. */
const NEWTON_PER_KILOGRAM = 9.80665

const readings: readonly Reading[] = [
  ['Pack voltage', 'pack_voltage_v', 'voltage', unitOf('voltage'), 1],
  ['Pack current', 'pack_current_a', 'current', unitOf('current'), 1],
  ['Power from the packs', 'pack_power_w', 'power', unitOf('power'), 1],
  ['Rotation', 'shaft_rpm', 'rotation', unitOf('rotation'), 1],
  ['Thrust', 'thrust_n', 'force', unitOf('force'), 1],
  ['Thrust on a scale', 'thrust_n', 'mass', unitOf('mass'), 1 / NEWTON_PER_KILOGRAM],
  ['Efflux', 'efflux_m_s', 'efflux', unitOf('efflux'), 1],
]

const how =
  'Anchored, packs full and warm (40 °C), full throttle of this setting: read within three seconds, then let it cool. ' +
  'Cooler or less full packs read lower all through.'

export function readingsSection({ standing }: SetupFigures, study: Study): Section {
  return { heading: 'On the bench', blocks: [{ kind: 'paragraph', text: how }, readingsGrid(standing, study)] }
}

function readingsGrid(standing: PointFigures, study: Study): Block {
  return {
    kind: 'grid',
    columns: [
      { title: 'Standing, full throttle', align: 'left' },
      { title: 'expect', align: 'right' },
      { title: '90 cases of 100', align: 'right' },
      { title: 'measured', align: 'right' },
    ],
    rows: readings.map(([label, key, quantity, unit, scale]) => [
      `${label}, ${unit}`,
      bare(quantity, standing[key] * scale),
      bandCell(study, `standing.${key}`, quantity, scale),
      '',
    ]),
  }
}

function bandCell(study: Study, path: string, quantity: Quantity, scale: number): string {
  const band = bandOf(study, path)
  return band === null ? '' : range(quantity, band[0] * scale, band[1] * scale)
}
