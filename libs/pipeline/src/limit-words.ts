// Limits, misfits and margin criteria in words a builder uses.
import type { Limit } from '@ductwright/models/evaluation/limits'
import type { MarginCriterion } from '@ductwright/models/structure/reserve'
import type { Misfit } from '@ductwright/models/sweep/plan'

export const LIMIT_WORDS: Readonly<Record<Limit, string>> = {
  budget: 'budget',
  'take-off-mass': 'take-off mass',
  ballast: 'ballast to balance it',
  'stall-speed': 'stall speed',
  'pack-power': 'power the pack can give',
  'motor-current': 'motor current',
  'motor-power': 'motor power',
  'motor-speed': 'motor speed of rotation',
  'esc-current': 'speed controller current',
  'esc-speed': 'speed controller electrical speed',
  'pack-current': 'pack current',
  'tip-speed': 'fan tip speed',
  'tip-mach': 'fan tip Mach number',
  'thrust-to-weight': 'standing thrust to weight',
  'take-off-roll': 'take-off roll',
  'level-flight': 'level flight at this throttle',
  'structural-margin': 'structural margin',
  'speed-floor': 'speed floor',
  cruise: 'thrust for cruise',
  'flight-time': 'flight time',
  'cell-voltage': 'cell voltage on the last pass',
  'winding-temperature': 'motor winding temperature',
  'magnet-temperature': 'magnet temperature',
  'esc-temperature': 'speed controller temperature',
  'pack-temperature': 'pack temperature',
  convergence: 'a solver that did not converge',
}

export const MISFIT_WORDS: Readonly<Record<Misfit, string>> = {
  'fan-size': 'fan size the duct does not take',
  'nozzle-exit': 'nozzle exit the fuselage does not take',
  'blade-stall': 'nozzle so tight that the blades stall standing',
  'motor-bore': 'motor too fat for the fan',
  'motor-shaft': 'motor shaft that does not fit the rotor',
  'esc-cells': 'cell count the speed controller does not take',
  connector: 'connectors that do not match',
  'battery-bay': 'packs that do not fit the battery bay',
  'motor-cells': 'more cells than the motor takes',
}

export const CRITERION_WORDS: Readonly<Record<MarginCriterion, string>> = {
  'design-speed': 'speed against the stated design speed',
  'wing-flutter': 'wing flutter',
  'tail-flutter': 'tail flutter',
  'wing-divergence': 'the wing twisting off (divergence)',
  'control-flutter': 'control-surface flutter',
  'servo-torque': 'servo torque at 5° of deflection',
  'wing-bending': 'wing bending in the hardest turn or pull-up',
  'fan-mount': 'thrust on the fan mount',
}
