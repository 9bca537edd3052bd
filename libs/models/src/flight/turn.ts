// Level turn: the wing lifts n·W at a bank angle with n = 1/cos φ, so induced drag grows with n² (McCormick, from memory).
// Radius and load factor of a turn are in structure/loads.ts, where they load the wing; here is what a turn costs and takes.

/** Bank angle at a load factor, rad: arccos(1/n). */
export function bankAngle(loadFactor: number): number {
  return Math.acos(1 / atLeastOne(loadFactor))
}

/** Load factor that the wing gives before it stalls: (V/Vs)². */
export function stallLoadFactor(speed: number, stall: number): number {
  return (speed / stall) ** 2
}

/** Drag in a level turn, N; `parasite` and `induced` are drag over V² and induced drag times V² flying straight. */
export function turnDrag(parasite: number, induced: number, speed: number, loadFactor: number): number {
  return parasite * speed * speed + (induced * atLeastOne(loadFactor) ** 2) / (speed * speed)
}

/** Load factor at which a thrust (N) just holds the speed; below 1 when it does not even hold it flying straight. */
export function sustainedLoadFactor(parasite: number, induced: number, speed: number, thrust: number): number {
  const left = Math.max(0, thrust - parasite * speed * speed)
  return speed * Math.sqrt(left / induced)
}

/** Time of half a turn, s: π·R/V. */
export function halfTurnTime(speed: number, radius: number): number {
  return (Math.PI * radius) / speed
}

function atLeastOne(loadFactor: number): number {
  if (!(loadFactor >= 1)) throw new RangeError(`load factor of a level turn must be at least 1, got ${loadFactor}`)
  return loadFactor
}
