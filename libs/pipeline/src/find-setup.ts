// A setup named by part ids, found in the catalogue: parts, timing, source, price and mass.
import type { Catalogue, Listed, ListedPack } from '@ductwright/catalogue/catalogue'
import { type Fault, InputError, shown } from '@ductwright/contract/fault'
import type { SetupChoice } from '@ductwright/contract/request'
import type { PurchaseLine } from '@ductwright/contract/result'
import type { Esc } from '@ductwright/models/esc/esc'
import type { Parts } from '@ductwright/models/evaluation/evaluator'
import type { Fan } from '@ductwright/models/fan/fan'
import type { Motor } from '@ductwright/models/motor/motor'
import { arrange, packCount } from '@ductwright/models/pack/arrangement'
import { type PriceList, total } from './costs.js'
import { knownParts, partFault } from './known-parts.js'

export interface FoundSetup {
  readonly fan: Listed<Fan>
  readonly motor: Listed<Motor>
  readonly esc: Listed<Esc>
  readonly pack: ListedPack
  readonly parts: Omit<Parts, 'node'>
  readonly lines: readonly PurchaseLine[]
  readonly replacementCost: number
}

const DEGREE = Math.PI / 180
/** A timing in a request may differ this much from the controller's own, rad. */
const TIMING_TOLERANCE = 0.05 * DEGREE

/**
 * Finds the parts of a setup.
 * @param pointer JSON pointer of the setup, for faults
 * @throws InputError naming unknown parts, or a timing the controller does not offer
 */
export function findSetup(setup: SetupChoice, catalogue: Catalogue, prices: PriceList, pointer: string): FoundSetup {
  const fan = catalogue.fans.find(({ part }) => part.id === setup.fan)
  const motor = catalogue.motors.find(({ part }) => part.id === setup.motor)
  const esc = catalogue.escs.find(({ part }) => part.id === setup.esc)
  const pack = catalogue.packs.find(({ part }) => part.id === setup.pack)
  if (fan === undefined || motor === undefined || esc === undefined || pack === undefined) {
    throw new InputError('the setup cannot be worked out', unknownFaults(setup, catalogue, pointer))
  }
  const timing = esc.part.timings.find((offered) => Math.abs(offered - setup.timing_deg * DEGREE) <= TIMING_TOLERANCE)
  if (timing === undefined)
    throw new InputError('the setup cannot be worked out', [timingFault(setup, esc.part, pointer)])
  const packs = packCount(setup.arrangement)
  const lines = [...prices.pairLines(fan, motor), ...prices.escLines(esc), ...prices.packLines(pack, packs)]
  return {
    fan,
    motor,
    esc,
    pack,
    parts: {
      motor: motor.part,
      esc: esc.part,
      timing,
      source: arrange(pack.part, setup.arrangement),
      pairMass: prices.pairMass(fan.part, motor.part),
      escMass: prices.escMass(esc.part),
      cost: total(lines),
    },
    lines,
    replacementCost: prices.replacementCost(fan, motor, esc, pack, packs),
  }
}

function unknownFaults(setup: SetupChoice, catalogue: Catalogue, pointer: string): Fault[] {
  const known = knownParts(catalogue)
  return (['fan', 'motor', 'esc', 'pack'] as const)
    .map((role) => partFault(known, setup[role], `${pointer}/${role}`, role))
    .filter((fault) => fault !== null)
}

function timingFault(setup: SetupChoice, esc: Esc, pointer: string): Fault {
  const offered = esc.timings.map((timing) => `${round(timing / DEGREE)}°`).join(', ')
  const message = `${shown(esc.id)} offers a timing of ${offered}, not ${setup.timing_deg}°`
  return { pointer: `${pointer}/timing_deg`, rule: 'timing', value: shown(setup.timing_deg), message }
}

function round(degrees: number): number {
  return Math.round(degrees * 100) / 100
}
