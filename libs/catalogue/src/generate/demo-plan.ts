// The demonstration catalogue as a plan. Quality and price are set apart on purpose: some families are good value, some
// are dear for what they do, some boast.
import { demoAirframes } from './demo-airframes.js'
import { demoEscs } from './demo-escs.js'
import { demoFans } from './demo-fans.js'
import { demoMotors } from './demo-motors.js'
import { demoPacks } from './demo-packs.js'
import type { CataloguePlan } from './plan.js'

export const demoPlan: CataloguePlan = {
  seed: 20_260_314,
  name: 'Ductwright demonstration catalogue (all parts invented)',
  currency: 'EUR',
  dated: '2026-03-14',
  fans: demoFans,
  motors: demoMotors,
  escs: demoEscs,
  packs: demoPacks,
  airframes: demoAirframes,
  sets: 12,
}
