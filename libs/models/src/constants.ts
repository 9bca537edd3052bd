// Physical constants shared by the models, each with its source. SI units throughout this library.

/** Standard acceleration of gravity, m/s². ISO 80000-3. */
export const STANDARD_GRAVITY = 9.80665

/** Specific gas constant of dry air, J/(kg·K). ISO 2533:1975. */
export const GAS_CONSTANT_AIR = 287.05287

/** Ratio of specific heats of air. ISO 2533:1975. */
export const HEAT_RATIO_AIR = 1.4

/** Zero of the Celsius scale, K. */
export const ZERO_CELSIUS = 273.15

/** Temperature coefficient of copper resistance referred to 20 °C, 1/K. IEC 60028. */
export const COPPER_TEMPERATURE_COEFFICIENT = 0.00393

/** Reference temperature of a winding resistance, K (20 °C). IEC 60028. */
export const COPPER_REFERENCE_TEMPERATURE = 293.15
