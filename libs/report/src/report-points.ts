// The operating points of one setup for its report: every quantity of each, with its unit and its band.
import { percent } from '@ductwright/contract/figures'
import type { PointFigures, SetupFigures } from '@ductwright/contract/result'
import type { SetupReport } from '@ductwright/contract/setup'
import { bandedPairs, type Row, type Study } from './banded.js'
import type { Section } from './letter.js'

const rows: readonly Row<PointFigures>[] = [
  ['Air speed', 'speed_km_h', 'speed'],
  ['Throttle', 'duty', 'percent', 100],
  ['Shaft', 'shaft_rpm', 'rotation'],
  ['Blade tip Mach number', 'tip_mach', 'ratio'],
  ['Advance ratio', 'advance_ratio', 'coefficient'],
  ['Flow coefficient', 'flow_coefficient', 'coefficient'],
  ['Efflux', 'efflux_m_s', 'efflux'],
  ['Thrust', 'thrust_n', 'force'],
  ['Drag', 'drag_n', 'force'],
  ['Motor current', 'motor_current_a', 'current'],
  ['Pack current', 'pack_current_a', 'current'],
  ['Pack voltage', 'pack_voltage_v', 'voltage'],
  ['Motor voltage', 'motor_voltage_v', 'voltage'],
  ['Power from the packs', 'pack_power_w', 'power'],
  ['Lost in the speed controller', 'esc_loss_w', 'power'],
  ['Lost in the motor', 'motor_loss_w', 'power'],
  ['Power at the shaft', 'shaft_power_w', 'power'],
  ['Motor efficiency', 'motor_efficiency', 'percent', 100],
  ['Fan efficiency', 'fan_efficiency', 'percent', 100],
  ['Froude efficiency', 'froude_efficiency', 'percent', 100],
  ['Propulsive efficiency', 'propulsive_efficiency', 'percent', 100],
]

export function pointSections(
  figures: SetupFigures,
  study: Study,
  { charge, profile }: SetupReport['understood'],
): Section[] {
  const section = (heading: string, key: 'standing' | 'top_full' | 'top' | 'top_last' | 'cruise'): Section => {
    const point = figures[key]
    if (point === null) {
      const text = `At a charge of ${percent(profile.reserve)} the packs no longer carry level flight at this throttle.`
      return { heading, blocks: [{ kind: 'paragraph', text }] }
    }
    return { heading, blocks: [{ kind: 'pairs', pairs: bandedPairs(rows, point, `${key}.`, study) }] }
  }
  return [
    section('Standing on the bench, pack full and warm', 'standing'),
    section('Level top speed, pack full and warm', 'top_full'),
    section(`Level top speed at the quoted charge, ${percent(charge)}`, 'top'),
    section(`Level top speed on the last pass, charge ${percent(profile.reserve)}`, 'top_last'),
    section('Cruise', 'cruise'),
  ]
}
