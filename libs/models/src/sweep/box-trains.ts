// The four power trains that the bounds of a box are worked out with: the best and the worst of its units, each in both
// electrical states. Most boxes are put away before their worst is asked for, so that is filled in late.
import { ElectricalState } from '../evaluation/electrical-state.js'
import type { Motor } from '../motor/motor.js'
import { emptyPowerTrain, setDuty } from '../operating-point/power-train.js'
import type { Circumstances } from './problem.js'
import type { UnitBoxes } from './unit-boxes.js'
import { emptyExtreme } from './unit-columns.js'

export class BoxTrains {
  /** Attributes of the box taken last. */
  readonly best = emptyExtreme()
  readonly worst = emptyExtreme()
  readonly bestFull = emptyPowerTrain()
  readonly bestQuoted = emptyPowerTrain()
  readonly worstFull = emptyPowerTrain()
  readonly worstQuoted = emptyPowerTrain()
  readonly #boxes: UnitBoxes
  readonly #electrical: ElectricalState
  #motor: Motor | null = null
  #timing = 0
  #worstIsFilled = false

  constructor(circumstances: Circumstances, boxes: UnitBoxes) {
    this.#electrical = new ElectricalState(circumstances)
    this.#boxes = boxes
  }

  /** Reads the attributes of a box. */
  take(box: number): void {
    this.#boxes.readBest(box, this.best)
    this.#boxes.readWorst(box, this.worst)
    this.#timing = this.#boxes.timings[box] as number
    this.#worstIsFilled = false
  }

  /** Fills the best trains behind a motor; the worst follow when they are asked for. */
  fill(motor: Motor): void {
    this.#motor = motor
    const { esc, source } = this.best
    this.#electrical.fill(motor, this.#timing, esc, source, this.bestFull, this.bestQuoted)
  }

  setBest(duty: number): void {
    const { esc } = this.best
    setDuty(this.bestFull, esc, duty)
    setDuty(this.bestQuoted, esc, duty)
  }

  setWorst(duty: number): void {
    const { esc, source } = this.worst
    if (!this.#worstIsFilled) {
      this.#electrical.fill(this.#motor as Motor, this.#timing, esc, source, this.worstFull, this.worstQuoted)
      this.#worstIsFilled = true
    }
    setDuty(this.worstFull, esc, duty)
    setDuty(this.worstQuoted, esc, duty)
  }
}
