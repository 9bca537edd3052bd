// From SI to the units of the tables: the way back of rows/unit.ts, rounded to what a table would hold.
import { ZERO_CELSIUS } from '@ductwright/models/constants'
import { tidy } from './cells.js'

/** m → mm, kg → g, Ω → mΩ */
export const toMilli = (value: number): number => tidy(value * 1000)
/** A·s → mAh */
export const toMilliampHours = (value: number): number => tidy((value * 1000) / 3600)
/** s → ns */
export const toNano = (value: number): number => tidy(value * 1e9)
/** Hz → kHz */
export const toKilo = (value: number): number => tidy(value / 1000)
/** rad/s → rev/min, and rad/s per V → rev/min per V */
export const toRpm = (value: number): number => tidy((value * 30) / Math.PI)
/** rad → ° */
export const toDegrees = (value: number): number => tidy((value * 180) / Math.PI)
/** K → °C */
export const toCelsius = (value: number): number => tidy(value - ZERO_CELSIUS)
/** m/s → km/h */
export const toKilometresPerHour = (value: number): number => tidy(value * 3.6)
/** m² → dm² */
export const toSquareDecimetres = (value: number): number => tidy(value * 100)
/** m² → cm² */
export const toSquareCentimetres = (value: number): number => tidy(value * 10_000)
/** share → % */
export const toPercent = (value: number): number => tidy(value * 100)
/** kg·m² → g·cm² */
export const toGramSquareCentimetres = (value: number): number => tidy(value * 1e7)
