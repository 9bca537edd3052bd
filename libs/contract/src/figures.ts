// The one place where a number becomes words: quantity, decimals and unit are fixed here, so mail, text, table and file
// never differ. British style: a comma between thousands, a point before decimals, a no-break space before the unit
// (plain text turns it into a space after wrapping). Nothing depends on the machine's locale.

import { inert } from './inert.js'

const noBreak = '\u00a0'

/** What is measured, with what unit and how finely it is quoted. */
const quantities = {
  speed: { unit: 'km/h', decimals: 0 },
  fineSpeed: { unit: 'km/h', decimals: 1 },
  efflux: { unit: 'm/s', decimals: 0 },
  current: { unit: 'A', decimals: 0 },
  voltage: { unit: 'V', decimals: 1 },
  power: { unit: 'W', decimals: 0 },
  rotation: { unit: 'rpm', decimals: 0 },
  force: { unit: 'N', decimals: 1 },
  temperature: { unit: '°C', decimals: 0 },
  percent: { unit: '%', decimals: 0 },
  exactPercent: { unit: '%', decimals: 1 },
  diameter: { unit: 'mm', decimals: 1 },
  station: { unit: 'mm', decimals: 0 },
  mass: { unit: 'kg', decimals: 2 },
  smallMass: { unit: 'g', decimals: 0 },
  charge: { unit: 'mAh', decimals: 0 },
  energy: { unit: 'Wh', decimals: 1 },
  distance: { unit: 'm', decimals: 0 },
  dragArea: { unit: 'cm²', decimals: 1 },
  seconds: { unit: 's', decimals: 0 },
  fineSeconds: { unit: 's', decimals: 2 },
  angle: { unit: '°', decimals: 0 },
  loadFactor: { unit: '', decimals: 1 },
  ratio: { unit: '', decimals: 2 },
  coefficient: { unit: '', decimals: 3 },
  count: { unit: '', decimals: 0 },
  finePercent: { unit: '%', decimals: 2 },
  hours: { unit: 'h', decimals: 1 },
  pressure: { unit: 'hPa', decimals: 0 },
  density: { unit: 'kg/m³', decimals: 3 },
  resistance: { unit: 'mΩ', decimals: 2 },
  viscosity: { unit: 'µPa·s', decimals: 1 },
} as const satisfies Record<string, { unit: string; decimals: number }>

export type Quantity = keyof typeof quantities

const unknown = 'not known'
/** Speeds this close are the same but for the unit they were worked out in, km/h. */
const TOUCH = 1e-6

function grouped(digits: string): string {
  const [whole = '', fraction] = digits.split('.')
  const groups = whole.replace(/\B(?=(\d{3})+$)/g, ',')
  return fraction === undefined ? groups : `${groups}.${fraction}`
}

function signed(value: number, decimals: number): string {
  const digits = Math.abs(value).toFixed(decimals)
  return value < 0 && Number(digits) !== 0 ? `−${grouped(digits)}` : grouped(digits)
}

/** The number alone, for a column whose head names the unit. */
export function bare(quantity: Quantity, value: number | null): string {
  return value === null || !Number.isFinite(value) ? unknown : signed(value, decimalsOf(quantity, value))
}

/** A timing of 7.5° is a setting of its own; a whole one reads better without its decimal. */
function decimalsOf(quantity: Quantity, value: number): number {
  if (quantity === 'angle') return Number.isInteger(Math.round(value * 10) / 10) ? 0 : 1
  return quantities[quantity].decimals
}

/** Number and unit. */
export function figure(quantity: Quantity, value: number | null): string {
  const number = bare(quantity, value)
  const unit = quantities[quantity].unit
  if (number === unknown || unit === '') return number
  return unit === '°' ? `${number}${unit}` : `${number}${noBreak}${unit}`
}

/**
 * Two bounds to stand beside a figure, such as `286 to 322`: its decimals, no unit. Rounded outward, so that the band as
 * it reads never says more than the band as it was worked out.
 */
export function range(quantity: Quantity, low: number, high: number): string {
  const { decimals } = quantities[quantity]
  return spanned(
    signed(stepped(low, decimals, Math.floor), decimals),
    signed(stepped(high, decimals, Math.ceil), decimals),
  )
}

/**
 * Two bounds to keep to, such as `409 to 427 mm`: rounded inward, so that whoever keeps to what is written keeps to what was
 * worked out; empty when nothing is left between them then.
 */
export function within(quantity: Quantity, from: number, to: number): string {
  const { decimals, unit } = quantities[quantity]
  const [least, most] = [stepped(from, decimals, Math.ceil), stepped(to, decimals, Math.floor)]
  return least > most ? '' : `${spanned(signed(least, decimals), signed(most, decimals))}${noBreak}${unit}`
}

function spanned(low: string, high: string): string {
  return `${low}${noBreak}to${noBreak}${high}`
}

/** Down or up to the last place; steps of less than a millionth of it are rounding of binary numbers. */
function stepped(value: number, decimals: number, round: (value: number) => number): number {
  const scale = 10 ** decimals
  const slack = round === Math.floor ? 1e-6 : -1e-6
  return round(value * scale + slack) / scale
}

/** The number as a file carries it: same decimals, ASCII minus, no thousands mark; empty when there is none. */
export function fileNumber(quantity: Quantity, value: number | null): string {
  if (value === null || !Number.isFinite(value)) return ''
  const digits = value.toFixed(decimalsOf(quantity, value))
  return Number(digits) === 0 ? digits.replace('-', '') : digits
}

export function unitOf(quantity: Quantity): string {
  return quantities[quantity].unit
}

/** Minutes and seconds, from seconds. */
export function duration(seconds: number): string {
  return Number.isFinite(seconds) ? `${clock(seconds)}${noBreak}min` : unknown
}

/** The same without its unit. */
export function clock(seconds: number): string {
  const whole = Math.round(Math.max(0, seconds))
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}

/** Two times to stand beside a duration, rounded outward to whole seconds. */
export function clockRange(low: number, high: number): string {
  return spanned(clock(stepped(low, 0, Math.floor)), clock(stepped(high, 0, Math.ceil)))
}

/** Whole amounts without decimals, others with cents. */
export function money(amount: number, currency: string): string {
  return `${amountOf(amount)}${noBreak}${inert(currency, 8)}`
}

export function amountOf(amount: number): string {
  return signed(amount, centsOf(amount))
}

export function fileAmount(amount: number): string {
  return amount.toFixed(centsOf(amount))
}

function centsOf(amount: number): number {
  return Number.isInteger(Math.round(amount * 100) / 100) ? 0 : 2
}

/** A share as per cent, from 0…1. */
export function percent(share: number): string {
  return figure('percent', share * 100)
}

/**
 * How much of a limit is used, rounded up as what is left is rounded down; close to the limit one decimal more, so that
 * a broken one never reads as just kept.
 */
export function used(share: number): string {
  const close = share > 0.985 && share < 1.055 && Math.abs(share - 1) > 1e-9
  const scale = close ? 10 : 1
  return figure(close ? 'exactPercent' : 'percent', Math.ceil(share * 100 * scale - 1e-6) / scale)
}

/** What is left of a limit or a design load, rounded to the side of caution: 24.7 % left reads 24 %. */
export function reserve(share: number): string {
  return figure('percent', Math.floor(share * 100 + 1e-6))
}

/** Distance of the worst load from the design load. */
export function belowDesign(margin: number): string {
  const words = margin < 0 ? 'above' : 'below'
  return `${reserve(margin).replace('−', '')} ${words} the design load`
}

/** A chance in the words of a bet, rounded down: in tens, near certainty and near nothing in hundreds. */
export function odds(chance: number): string {
  const hundredths = Math.floor(Math.min(1, Math.max(0, chance)) * 100 + 1e-6)
  if (hundredths < 1) return `less than ${oneOf(1, 100)}`
  if (hundredths >= 99) return `at least ${oneOf(99, 100)}`
  if (hundredths < 10 || hundredths >= 95) return oneOf(hundredths, 100)
  return oneOf(Math.floor(hundredths / 10), 10)
}

function oneOf(part: number, whole: number): string {
  return `${part}${noBreak}in${noBreak}${whole}`
}

/** Loads under a kilogram in grams. */
export function weight(kilograms: number): string {
  return Math.abs(kilograms) < 0.9995 ? figure('smallMass', kilograms * 1000) : figure('mass', kilograms)
}

/** SI speed at the border. */
export function speedOf(metresPerSecond: number): string {
  return figure('speed', metresPerSecond * 3.6)
}

export function celsiusOf(kelvin: number): string {
  return figure('temperature', kelvin - 273.15)
}

/** km/h beside a target: with a decimal, rounded down, where a whole number would hide that it is missed. */
export function bareSpeed(speed: number, target: number): string {
  const missed = target - speed
  return missed > TOUCH && missed < 1 ? bare('fineSpeed', stepped(speed, 1, Math.floor)) : bare('speed', speed)
}

/** What is missing to a target, km/h; never nothing. */
export function shortfall(missed: number): string {
  return missed < 1 ? figure('fineSpeed', stepped(missed, 1, Math.ceil)) : figure('speed', missed)
}
