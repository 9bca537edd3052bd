// How far below its computed limit each structural criterion is held, and why. A design factor and what is known of the
// scatter are two ways to the same end, so the stricter of both counts and never their product.
// In: a criterion. Out: the divisor of its allowed load (a dynamic pressure, a bending moment, a thrust).
// The 95 % value takes the allowed load as normally distributed, one-sided. Uncertainties combine after JCGM 100:2008.

export interface CriterionScatter {
  /** Design factor on the load; for a factor on speed its square. */
  readonly factor: number
  /** Relative standard uncertainty of the allowed load. */
  readonly uncertainty: number
  readonly reason: string
}

/** Standard deviations below the mean that 95 % lie above. */
export const ONE_SIDED_95 = 1.645

export const CRITERION_SCATTER = {
  'design-speed': {
    factor: 1,
    uncertainty: 0,
    reason: 'stated by maker or owner, who had their own reserve in mind',
  },
  'wing-flutter': {
    factor: 1.5 ** 2,
    uncertainty: 0.22,
    reason: 'Assumed: 1.5 on speed; stiffness in torsion known to 20 %, place of the centre of mass to 9 %',
  },
  'tail-flutter': {
    factor: 1.5 ** 2,
    uncertainty: 0.22,
    reason: 'Assumed: 1.5 on speed; stiffness in torsion known to 20 %, place of the centre of mass to 9 %',
  },
  'wing-divergence': {
    factor: 1.25 ** 2,
    uncertainty: 0.22,
    reason: 'Assumed: 1.25 on speed; stiffness in torsion known to 20 %, elastic axis and lift slope together to 9 %',
  },
  'control-flutter': {
    factor: 1,
    uncertainty: 0.2,
    reason: 'Assumed: no factor beyond the reduced frequency; linkage stiffness known to 17 %, inertia to 10 %',
  },
  'servo-torque': {
    factor: 2,
    uncertainty: 0.12,
    reason: 'Assumed: twice the torque; torque under load known to 10 %, hinge-moment slope to 7 %',
  },
  'wing-bending': {
    factor: 1.5,
    uncertainty: 0.15,
    reason: 'Assumed: the usual factor of safety of aircraft structures; strength of a hand-built joint known to 15 %',
  },
  'fan-mount': {
    factor: 1,
    uncertainty: 0.15,
    reason: 'Assumed: the load is already one to be carried again and again; the glue joint is known to 15 %',
  },
} as const satisfies Readonly<Record<string, CriterionScatter>>

export type ScatteredCriterion = keyof typeof CRITERION_SCATTER

/** What the allowed load of a criterion is divided by. */
export function loadDivisor(criterion: ScatteredCriterion): number {
  const { factor, uncertainty } = CRITERION_SCATTER[criterion]
  return stricterDivisor(factor, uncertainty)
}

/**
 * The greater of a design factor on load and the divisor that leaves 95 % of all pieces above.
 * @throws RangeError when the factor is below 1, or the uncertainty so great that the 95 % value is not above 0
 */
export function stricterDivisor(factor: number, uncertainty: number): number {
  if (!(factor >= 1)) throw new RangeError(`design factor must be at least 1, got ${factor}`)
  if (!(uncertainty >= 0 && uncertainty * ONE_SIDED_95 < 1)) {
    const most = (1 / ONE_SIDED_95).toFixed(3)
    throw new RangeError(`relative uncertainty must be at least 0 and below ${most}, got ${uncertainty}`)
  }
  return Math.max(factor, 1 / (1 - ONE_SIDED_95 * uncertainty))
}
