// Figures as a data sheet prints them: few digits, so that a spreadsheet stays readable and the last bit of a logarithm
// on another machine cannot change the file.

/** Rounded to the nearest multiple of `step`, without the stray digits of binary fractions. */
export function toStep(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toPrecision(12))
}

/** Rounded to a number of significant digits. */
export function toDigits(value: number, digits: number): number {
  return Number(value.toPrecision(digits))
}

/** A price: whole below 100, then in fives, less ten cents as shops do. */
export function toPrice(value: number): number {
  return toDigits((value < 100 ? Math.max(1, Math.round(value)) : toStep(value, 5)) - 0.1, 6)
}
