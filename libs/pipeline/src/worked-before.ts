// What was worked out before, kept as notes from one run of a question to the next: value by the hash of a calculation's
// name and of all that went into it. A calculation sees nothing but its input, so a note is used only where working it out
// anew would give the same; one that is not used in a run drops out. Notes of other models, or a text that is damaged, are
// no notes: the answer is the same, and takes longer.
import { sha256Hex } from '@ductwright/contract/canonical-json'
import { MODEL_VERSION } from '@ductwright/models/model-version'
import { isJson, PlainTexts } from './plain-text.js'

/** Raised whenever something noted comes out another way, or in other words, though the models are the same. */
const FORM = 'ductwright-notes/1'
const HEAD = `${FORM} ${MODEL_VERSION}`

/** 128 bits: no two inputs that are ever met share them. */
const KEY_LENGTH = 32

export class WorkedBefore {
  readonly #known: ReadonlyMap<string, string>
  /** JSON by key, in the order of first use. */
  readonly #used = new Map<string, string>()
  /** As worked out or read. */
  readonly #values = new Map<string, unknown>()
  readonly #texts = new PlainTexts()
  /** Calculations that had to be done in this run. */
  worked = 0

  private constructor(known: ReadonlyMap<string, string>) {
    this.#known = known
  }

  static none(): WorkedBefore {
    return new WorkedBefore(new Map())
  }

  /** From the text of an earlier run; none from any other text. */
  static from(text: string | null): WorkedBefore {
    if (text === null) return WorkedBefore.none()
    const end = text.indexOf('\n')
    const body = text.slice(end + 1)
    if (end < 0 || text.slice(0, end) !== headOf(body)) return WorkedBefore.none()
    const lines = body.split('\n').filter((line) => line.length > KEY_LENGTH)
    return new WorkedBefore(new Map(lines.map((line) => [line.slice(0, KEY_LENGTH), line.slice(KEY_LENGTH + 1)])))
  }

  /**
   * The value of a calculation: as noted, or worked out and noted. What does not come back the same from JSON is given, but
   * not noted.
   * @param work whose value depends on nothing but its input
   * @throws RangeError for an input that is no plain data
   */
  of<Input extends object, Value>(name: string, input: Input, work: (input: Input) => Value): Value {
    const key = sha256Hex(`${name} ${this.#texts.of(input)}`).slice(0, KEY_LENGTH)
    if (this.#values.has(key)) return this.#values.get(key) as Value
    const noted = this.#known.get(key)
    const value = noted === undefined ? this.#work(input, work) : (JSON.parse(noted) as Value)
    this.#values.set(key, value)
    if (noted !== undefined) this.#used.set(key, noted)
    else if (isJson(value)) this.#used.set(key, JSON.stringify(value))
    return value
  }

  #work<Input, Value>(input: Input, work: (input: Input) => Value): Value {
    this.worked++
    return work(input)
  }

  /** The notes that this run used or made, as text for the next. */
  used(): string {
    const body = Array.from(this.#used, ([key, json]) => `${key} ${json}\n`).join('')
    return `${headOf(body)}\n${body}`
  }
}

function headOf(body: string): string {
  return `${HEAD} ${sha256Hex(body)}`
}
