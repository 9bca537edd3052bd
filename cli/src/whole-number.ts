// Reads a whole number given as an option.
import { InvalidArgumentError } from 'commander'

export function wholeNumber(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = Number(text)
    if (/^\d+$/.test(text) && value >= least && value <= most) return value
    throw new InvalidArgumentError(`It must be a whole number from ${least} to ${most}.`)
  }
}
