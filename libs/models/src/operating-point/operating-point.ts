// One state of the whole chain: air, fan, shaft, motor and pack at one flight speed. Solvers fill one of these in.

/** SI throughout: m/s, N, N·m, A, V. `residual` is relative to the motor voltage. */
export interface OperatingPoint {
  speed: number
  bladeSpeed: number
  axialSpeed: number
  thrust: number
  torque: number
  efficiency: number
  current: number
  busVoltage: number
  busCurrent: number
  duty: number
  iterations: number
  residual: number
}

/** Why there is no operating point; 'ok' when there is one. */
export type SolveOutcome = 'ok' | 'source-exhausted' | 'no-level-flight' | 'not-converged'

export function emptyOperatingPoint(): OperatingPoint {
  return {
    speed: 0,
    bladeSpeed: 0,
    axialSpeed: 0,
    thrust: 0,
    torque: 0,
    efficiency: 0,
    current: 0,
    busVoltage: 0,
    busCurrent: 0,
    duty: 0,
    iterations: 0,
    residual: 0,
  }
}

/** Largest relative voltage residual a solver accepts. */
export const VOLTAGE_TOLERANCE = 1e-11

/** Newton steps before a solver gives up. */
export const ITERATION_LIMIT = 40
