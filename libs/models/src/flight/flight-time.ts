// Flight time from the charge that may be used and the mean current of a flight with a share at full throttle.
// Assumed: both currents are taken at the quoted state of charge; they change by a few per cent over the flight.

/** Mean pack current, A. */
export function meanCurrent(fullThrottle: number, cruise: number, share: number): number {
  return share * fullThrottle + (1 - share) * cruise
}

/** Flight time to the landing reserve, s. Charge A·s, current A. */
export function flightTime(capacity: number, reserve: number, current: number): number {
  return ((1 - reserve) * capacity) / current
}
