// From the units of the tables to SI, the one place where a catalogue figure changes its unit. Divisors rather than
// factors: 90 / 1000 is the double nearest to 0.09, 90 * 0.001 is not.
import { ZERO_CELSIUS } from '@ductwright/models/constants'

/** mm → m, g → kg, mΩ → Ω, mAh → Ah */
export const fromMilli = (value: number): number => value / 1000
/** mAh → A·s */
export const fromMilliampHours = (value: number): number => (value * 3600) / 1000
/** ns → s */
export const fromNano = (value: number): number => value / 1e9
/** kHz → Hz */
export const fromKilo = (value: number): number => value * 1000
/** rev/min → rad/s, and rev/min per V → rad/s per V */
export const fromRpm = (value: number): number => (value * Math.PI) / 30
/** ° → rad */
export const fromDegrees = (value: number): number => (value * Math.PI) / 180
/** °C → K */
export const fromCelsius = (value: number): number => value + ZERO_CELSIUS
/** km/h → m/s */
export const fromKilometresPerHour = (value: number): number => value / 3.6
/** dm² → m² */
export const fromSquareDecimetres = (value: number): number => value / 100
/** cm² → m² */
export const fromSquareCentimetres = (value: number): number => value / 10_000
/** % → share */
export const fromPercent = (value: number): number => value / 100
/** g·cm² → kg·m² */
export const fromGramSquareCentimetres = (value: number): number => value / 1e7
