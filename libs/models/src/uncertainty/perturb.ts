// A setup as it would be if its inputs were a little other than stated: takes one value for each input of the tolerance
// table and gives parts and circumstances with those values, the fan in its duct worked out anew. All values neutral give
// the setup back to the last digit.
import type { Airframe } from '../airframe/airframe.js'
import { airAt } from '../atmosphere/standard-atmosphere.js'
import type { Esc } from '../esc/esc.js'
import type { Parts } from '../evaluation/evaluator.js'
import { fanNode } from '../evaluation/fan-node.js'
import type { Fan } from '../fan/fan.js'
import type { Motor } from '../motor/motor.js'
import type { Source } from '../pack/arrangement.js'
import type { AirframeStructure } from '../structure/airframe-structure.js'
import type { Circumstances } from '../sweep/problem.js'
import { INPUT_INDEX, VARIED_INPUTS, type VariedInput } from './tolerances.js'

/** A setup whose duct state is worked out anew for every sample. */
export interface StudiedSetup {
  readonly fan: Fan
  readonly nozzleRatio: number
  readonly parts: Omit<Parts, 'node'>
  readonly circumstances: Circumstances
}

export interface PerturbedSetup {
  readonly circumstances: Circumstances
  readonly parts: Parts
}

type ValueOf = (input: VariedInput) => number

/**
 * The setup with other inputs.
 * @param values factors and shifts in the order of `VARIED_INPUTS`
 * @throws RangeError for too few or too many values
 */
export function perturb(setup: StudiedSetup, values: ArrayLike<number>): PerturbedSetup {
  if (values.length !== VARIED_INPUTS.length) {
    throw new RangeError(`values must hold one number for each of ${VARIED_INPUTS.length} inputs, got ${values.length}`)
  }
  const value: ValueOf = (input) => values[INPUT_INDEX[input]] as number
  const circumstances = perturbedCircumstances(setup.circumstances, value)
  const { parts, fan, nozzleRatio } = setup
  return {
    circumstances,
    parts: {
      ...parts,
      node: fanNode(circumstances, perturbedFan(fan, value), nozzleRatio),
      motor: perturbedMotor(parts.motor, value),
      esc: perturbedEsc(parts.esc, value),
      source: perturbedSource(parts.source, value),
      pairMass: parts.pairMass * value('take-off-mass'),
      escMass: parts.escMass * value('take-off-mass'),
    },
  }
}

/** Air, mass and airframe. The air keeps its own ratio to dry air, so humidity or a given density stays as it was. */
function perturbedCircumstances(circumstances: Circumstances, value: ValueOf): Circumstances {
  const { airTemperature, pressure, mass } = circumstances
  const was = airAt(airTemperature, pressure)
  const is = airAt(airTemperature + value('air-temperature'), pressure * value('air-pressure'))
  return {
    ...circumstances,
    airframe: perturbedAirframe(circumstances.airframe, value),
    airTemperature: is.temperature,
    pressure: is.pressure,
    density: circumstances.density * (is.density / was.density),
    soundSpeed: circumstances.soundSpeed * (is.soundSpeed / was.soundSpeed),
    viscosity: circumstances.viscosity * (is.viscosity / was.viscosity),
    mass: { ...mass, fixed: mass.fixed === null ? null : mass.fixed * value('take-off-mass') },
  }
}

function perturbedAirframe(airframe: Airframe, value: ValueOf): Airframe {
  const duct = value('duct-loss')
  return {
    ...airframe,
    ductLoss: airframe.ductLoss * duct,
    inletLoss: airframe.inletLoss * duct,
    lipLoss: airframe.lipLoss * duct,
    ramRecovery: Math.min(1, airframe.ramRecovery + value('ram-recovery')),
    dragArea: airframe.dragArea * value('drag-area'),
    oswald: Math.min(1, airframe.oswald * value('oswald-factor')),
    liftCoefficientMax: airframe.liftCoefficientMax * value('lift-coefficient'),
    liftCoefficientMaxFlaps: airframe.liftCoefficientMaxFlaps * value('lift-coefficient'),
    emptyMass: airframe.emptyMass * value('take-off-mass'),
    rootMomentUltimate: airframe.rootMomentUltimate * value('wing-strength'),
    mountLoad: airframe.mountLoad * value('mount-strength'),
    structure: airframe.structure === null ? null : perturbedStructure(airframe.structure, value),
  }
}

function perturbedStructure(structure: AirframeStructure, value: ValueOf): AirframeStructure {
  const { wing, tail, controls } = structure
  return {
    ...structure,
    wing: { ...wing, torsionalStiffness: wing.torsionalStiffness * value('wing-stiffness') },
    tail: { ...tail, torsionalStiffness: tail.torsionalStiffness * value('tail-stiffness') },
    controls: controls.map((control) => ({
      ...control,
      linkageStiffness: control.linkageStiffness * value('linkage-stiffness'),
      servoTorque: control.servoTorque * value('servo-torque'),
    })),
  }
}

function perturbedFan(fan: Fan, value: ValueOf): Fan {
  return {
    ...fan,
    psi0: fan.psi0 * value('fan-pressure-rise'),
    etaPeak: Math.min(1, fan.etaPeak * value('fan-efficiency')),
  }
}

function perturbedMotor(motor: Motor, value: ValueOf): Motor {
  return {
    ...motor,
    speedConstant: motor.speedConstant * value('motor-speed-constant'),
    resistance: motor.resistance * value('motor-resistance'),
    noLoadCurrent: motor.noLoadCurrent * value('no-load-current'),
    noLoadCurrentSlope: motor.noLoadCurrentSlope * value('no-load-current'),
    windingToCaseConductance: motor.windingToCaseConductance * value('motor-cooling'),
    caseToAirConductance: motor.caseToAirConductance * value('motor-cooling'),
  }
}

function perturbedEsc(esc: Esc, value: ValueOf): Esc {
  return {
    ...esc,
    resistance: esc.resistance * value('esc-resistance'),
    boardToSinkConductance: esc.boardToSinkConductance * value('esc-cooling'),
    sinkToAirConductance: esc.sinkToAirConductance * value('esc-cooling'),
  }
}

function perturbedSource(source: Source, value: ValueOf): Source {
  return {
    ...source,
    cellResistance: source.cellResistance * value('cell-resistance'),
    cellVoltageShift: source.cellVoltageShift + value('cell-voltage'),
    capacity: source.capacity * value('capacity'),
    mass: source.mass * value('take-off-mass'),
  }
}
