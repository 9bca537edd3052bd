// The International Standard Atmosphere below 11 km, and the air over a field on a day that is not standard.
// In: geopotential height m, or field elevation m with outside temperature K. Out: T K, p Pa, ρ kg/m³, a m/s, μ Pa·s.
// Humidity is left out (30 °C at 60 % lowers density by about 1 %).
// Source: ISO 2533:1975, the same as the US Standard Atmosphere 1976 in this range.
import { GAS_CONSTANT_AIR, HEAT_RATIO_AIR } from '../constants.js'

const SEA_LEVEL_TEMPERATURE = 288.15
const SEA_LEVEL_PRESSURE = 101325
const LAPSE_RATE = 0.0065
const PRESSURE_EXPONENT = 5.25588
const TROPOPAUSE = 11_000
/** Radius that turns geometric into geopotential height, m. ISO 2533:1975. */
const EARTH_RADIUS = 6_356_766
/** Lowest height accepted, m: the shore of the Dead Sea. */
const LOWEST_HEIGHT = -500

/** Sea-level density of the standard atmosphere, kg/m³. ISO 2533:1975. */
export const SEA_LEVEL_DENSITY = 1.225

export interface Air {
  readonly temperature: number
  readonly pressure: number
  readonly density: number
  readonly soundSpeed: number
  readonly viscosity: number
}

/**
 * Standard air at a geopotential height.
 * @param height m, −500 to 11 000
 * @throws RangeError outside that range
 */
export function standardAtmosphere(height: number): Air {
  requireHeight(height)
  return airAt(SEA_LEVEL_TEMPERATURE - LAPSE_RATE * height, pressureAt(height))
}

/**
 * Air over a field: standard pressure at its elevation, the measured temperature.
 * @param elevation m, −500 to 11 000
 * @param temperature K, 200 to 340
 * @throws RangeError outside those ranges
 */
export function fieldAir(elevation: number, temperature: number): Air {
  requireHeight(elevation)
  if (!(temperature >= 200 && temperature <= 340)) {
    throw new RangeError(`temperature must lie between 200 and 340 K, got ${temperature}`)
  }
  return airAt(temperature, pressureAt(elevation))
}

/** Geopotential height of a geometric height, both m. ISO 2533:1975. */
export function geopotentialHeight(geometricHeight: number): number {
  return (EARTH_RADIUS * geometricHeight) / (EARTH_RADIUS + geometricHeight)
}

function pressureAt(height: number): number {
  return SEA_LEVEL_PRESSURE * (1 - (LAPSE_RATE * height) / SEA_LEVEL_TEMPERATURE) ** PRESSURE_EXPONENT
}

/** Dry air at a temperature, K, and a pressure, Pa. */
export function airAt(temperature: number, pressure: number): Air {
  return {
    temperature,
    pressure,
    density: pressure / (GAS_CONSTANT_AIR * temperature),
    soundSpeed: Math.sqrt(HEAT_RATIO_AIR * GAS_CONSTANT_AIR * temperature),
    viscosity: (1.458e-6 * temperature ** 1.5) / (temperature + 110.4),
  }
}

function requireHeight(height: number): void {
  if (!(height >= LOWEST_HEIGHT && height <= TROPOPAUSE)) {
    throw new RangeError(`height must lie between ${LOWEST_HEIGHT} and ${TROPOPAUSE} m, got ${height}`)
  }
}
