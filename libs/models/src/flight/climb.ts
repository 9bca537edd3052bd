// Steady climb and dive of an aircraft with a drag law.

/** Climb speed, m/s: V·(T − D)/W. */
export function climbSpeed(speed: number, thrust: number, drag: number, weight: number): number {
  return (speed * (thrust - drag)) / weight
}

/** Terminal speed of a dive at an angle (rad) with thrust (N), m/s: √(2(W·sin γ + T)/(ρ·CdA)). */
export function terminalSpeed(
  weight: number,
  angle: number,
  thrust: number,
  density: number,
  dragArea: number,
): number {
  return Math.sqrt((2 * (weight * Math.sin(angle) + thrust)) / (density * dragArea))
}

/** Speed after a vertical dive through a height from an entry speed, m/s; no thrust. */
export function diveSpeed(terminal: number, entry: number, height: number, gravity: number): number {
  const gap = terminal * terminal - entry * entry
  return Math.sqrt(terminal * terminal - gap * Math.exp((-2 * gravity * height) / (terminal * terminal)))
}
