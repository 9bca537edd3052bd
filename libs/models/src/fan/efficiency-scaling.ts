// How the losses of a fan stage move with blade speed and air. The catalogue's peak efficiency holds at a tip speed of
// 170 m/s in standard sea-level air; away from there
//   1 − η = (1 − η_ref)·[½ + ½·(Re_ref/Re)^0.2]·[1 + 8·(M − 0.55)²₊],
// the first bracket after Ackeret (cited from memory) with Re in proportion to ρ·U·D/μ, so no blade chord is needed for the
// ratio. The second is assumed: nothing until the tip reaches Mach 0.55, then losses grow to 1.18 times at Mach 0.7, where the
// fan model ends. Left out: shocks, and any change of the pressure-rise line.

/** Tip speed at which a listed peak efficiency holds, in standard sea-level air, m/s. Assumed. */
export const REFERENCE_TIP_SPEED = 170
/** Tip Mach number above which compressibility adds losses, and how fast. Assumed. */
const CRITICAL_TIP_MACH = 0.55
const MACH_LOSS = 8
/** Share of the losses that does not depend on the Reynolds number; the rest goes with its fifth root. Ackeret, from memory. */
const FIXED_SHARE = 0.5
const REYNOLDS_EXPONENT = 1 / 5
/** Standard sea-level air: ρ/μ in s/m². ISO 2533:1975. */
const REFERENCE_DENSITY_OVER_VISCOSITY = 1.225 / 1.78938e-5

/** Loss factor of one fan in one air as a function of mean blade speed; all that does not change with speed worked out. */
export interface LossScale {
  /** Mean blade speed at which the Reynolds number is the reference, m/s. */
  readonly referenceSpeed: number
  /** Tip Mach number per m/s of mean blade speed. */
  readonly machPerSpeed: number
}

/** No scaling at all: for checks against models without it. */
export const NO_LOSS_SCALE: LossScale = { referenceSpeed: 0, machPerSpeed: 0 }

/** Ackeret: losses over the losses at a reference Reynolds number. */
export function reynoldsLossFactor(reynolds: number, reference: number): number {
  return FIXED_SHARE + (1 - FIXED_SHARE) * fifthRoot(reference / reynolds)
}

/**
 * Scale of a fan in an air.
 * @param tipOverMean tip radius over mean radius
 */
export function lossScale(
  tipOverMean: number,
  air: { readonly density: number; readonly viscosity: number; readonly soundSpeed: number },
): LossScale {
  const thinness = REFERENCE_DENSITY_OVER_VISCOSITY / (air.density / air.viscosity)
  return {
    referenceSpeed: (REFERENCE_TIP_SPEED / tipOverMean) * thinness,
    machPerSpeed: tipOverMean / air.soundSpeed,
  }
}

/** Losses over the listed ones at a mean blade speed (m/s). */
export function lossFactor(scale: LossScale, bladeSpeed: number): number {
  if (scale.referenceSpeed === 0) return 1
  return reynoldsLossFactor(bladeSpeed, scale.referenceSpeed) * machLossFactor(scale.machPerSpeed * bladeSpeed)
}

/** Slope of `lossFactor` with blade speed, s/m, where the factor itself is known. */
export function lossFactorSlope(scale: LossScale, bladeSpeed: number, factor: number): number {
  if (scale.referenceSpeed === 0) return 0
  const mach = scale.machPerSpeed * bladeSpeed
  const reynolds = factor / machLossFactor(mach)
  const machSlope = 2 * MACH_LOSS * Math.max(0, mach - CRITICAL_TIP_MACH) * scale.machPerSpeed
  const reynoldsSlope = (-REYNOLDS_EXPONENT * (reynolds - FIXED_SHARE)) / bladeSpeed
  return reynoldsSlope * machLossFactor(mach) + reynolds * machSlope
}

function machLossFactor(tipMach: number): number {
  const over = Math.max(0, tipMach - CRITICAL_TIP_MACH)
  return 1 + MACH_LOSS * over * over
}

/** Ratios for which four steps from 1 give every digit. */
const NEAR_ONE = [0.1, 5] as const

/** x^(1/5): Halley's steps, three times as quick as a power where the solvers ask for it again and again. */
function fifthRoot(x: number): number {
  if (!(x > NEAR_ONE[0] && x < NEAR_ONE[1])) return x ** REYNOLDS_EXPONENT
  let y = (2 + 3 * x) / (3 + 2 * x)
  for (let i = 0; i < 3; i++) {
    const y2 = y * y
    const y5 = y2 * y2 * y
    y *= (2 * y5 + 3 * x) / (3 * y5 + 2 * x)
  }
  return y
}
