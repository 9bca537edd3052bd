// One text for plain data that goes into a calculation, so that equal inputs have equal texts and unequal ones never share
// one: keys in code-unit order, and with what JSON cannot hold, infinities, −0, NaN, absent values, numbers in typed columns.
// Texts of objects are kept while the objects live, since many inputs share the same few.

export class PlainTexts {
  readonly #known = new WeakMap<object, string>()

  /**
   * The text of plain data, which must not change afterwards.
   * @throws RangeError for what is no plain data: a function, a symbol, an object with a prototype of its own
   */
  of(value: unknown): string {
    if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value)
    if (typeof value === 'string') return JSON.stringify(value)
    if (value === null || value === undefined || typeof value === 'boolean') return String(value)
    if (typeof value !== 'object') throw new RangeError(`a ${typeof value} is no plain data`)
    const known = this.#known.get(value)
    if (known !== undefined) return known
    const text = this.#compose(value)
    this.#known.set(value, text)
    return text
  }

  #compose(value: object): string {
    if (Array.isArray(value)) return `[${value.map((inside) => this.of(inside)).join(',')}]`
    if (value instanceof Float64Array) return `columns[${Array.from(value, (number) => this.of(number)).join(',')}]`
    if (Object.getPrototypeOf(value) !== Object.prototype) throw new RangeError('an object of a class is no plain data')
    const fields = value as Readonly<Record<string, unknown>>
    let text = '{'
    // By code units, as sort does it.
    for (const key of Object.keys(fields).sort()) text += `${JSON.stringify(key)}:${this.of(fields[key])},`
    return `${text}}`
  }
}

/** Whether data comes back the same from JSON: no −0, no infinity or NaN, nothing absent, no object of a class. */
export function isJson(value: unknown): boolean {
  if (typeof value === 'number') return Number.isFinite(value) && !Object.is(value, -0)
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return true
  if (typeof value !== 'object') return false
  if (Array.isArray(value)) return Object.keys(value).length === value.length && value.every(isJson)
  if (Object.getPrototypeOf(value) !== Object.prototype) return false
  return Object.keys(value).every((key) => key !== '__proto__') && Object.values(value).every(isJson)
}
