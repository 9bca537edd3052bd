// Resistance of a pack's leads from their gauge and length, and of the connector from its size, so that a builder can
// state what is printed on the wire instead of a resistance nobody measures.
// Diameter by the American wire gauge, ASTM B258 (from memory); copper at 20 °C after IEC 60028 (from memory).
// Assumed: a stranded lead has the copper section of the solid wire of its gauge; contact resistances of clean, tight
// bullets by their size.

/** Resistivity of annealed copper at 20 °C, Ω·m. IEC 60028. */
const COPPER_RESISTIVITY = 1.724e-8
/** Diameter of gauge 36, m, and the ratio between gauges 36 and 0000, which lie 39 steps apart. ASTM B258. */
const GAUGE_36_DIAMETER = 0.127e-3
const GAUGE_RATIO = 92
const GAUGE_STEPS = 39
/** Gauges 0000 (as −3) to 40. */
const GAUGE_MIN = -3
const GAUGE_MAX = 40

/** Bullet and its contact resistance, Ω, one plug in its socket. Assumed. */
const CONTACTS: ReadonlyMap<string, number> = new Map([
  ['bullet 2 mm', 0.4e-3],
  ['bullet 3.5 mm', 0.2e-3],
  ['bullet 4 mm', 0.15e-3],
  ['bullet 5 mm', 0.11e-3],
  ['bullet 5.5 mm', 0.1e-3],
  ['bullet 6 mm', 0.09e-3],
  ['bullet 6.5 mm', 0.08e-3],
  ['bullet 8 mm', 0.05e-3],
])

/** Connectors whose contact resistance is listed. */
export const CONTACT_CONNECTORS: readonly string[] = [...CONTACTS.keys()]

/**
 * Diameter of the wire of a gauge, m.
 * @param gauge American wire gauge, −3 (0000) to 40
 * @throws RangeError outside that range
 */
export function wireDiameter(gauge: number): number {
  if (!(gauge >= GAUGE_MIN && gauge <= GAUGE_MAX))
    throw new RangeError(`wire gauge must lie between ${GAUGE_MIN} and ${GAUGE_MAX}, got ${gauge}`)
  return GAUGE_36_DIAMETER * GAUGE_RATIO ** ((36 - gauge) / GAUGE_STEPS)
}

/**
 * Resistance of one copper wire at 20 °C, Ω.
 * @param gauge American wire gauge
 * @param length m
 * @throws RangeError for a gauge out of range or a length below 0
 */
export function wireResistance(gauge: number, length: number): number {
  if (!(length >= 0 && length < Number.POSITIVE_INFINITY))
    throw new RangeError(`wire length must be 0 m or more, got ${length}`)
  return (COPPER_RESISTIVITY * length) / ((Math.PI / 4) * wireDiameter(gauge) ** 2)
}

/**
 * Resistance of one contact of a connector, Ω.
 * @throws RangeError for a connector that is not in the list
 */
export function contactResistance(connector: string): number {
  const found = CONTACTS.get(connector)
  if (found === undefined)
    throw new RangeError(`connector must be one of ${CONTACT_CONNECTORS.join(', ')}, got ${JSON.stringify(connector)}`)
  return found
}

/** Leads of a pack: gauge, length of one of the two, m, and the connector at their end. */
export interface Leads {
  readonly gauge: number
  readonly length: number
  readonly connector: string
}

/**
 * Resistance of both leads and both contacts, Ω.
 * @throws RangeError for a gauge or length out of range, or a connector that is not in the list
 */
export function leadsResistance(leads: Leads): number {
  return 2 * (wireResistance(leads.gauge, leads.length) + contactResistance(leads.connector))
}
