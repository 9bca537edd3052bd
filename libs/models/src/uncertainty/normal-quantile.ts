// Inverse of the normal distribution: the deviate below which a given share of a standard normal quantity lies.
// Rational approximations in three ranges, good to about 1e-16. Source: M. J. Wichura, algorithm AS 241 (PPND16), Applied
// Statistics 37 (1988), cited from memory; checked against an independent implementation.

/** Coefficients from the constant upwards: numerator, denominator. */
type Ratio = readonly [readonly number[], readonly number[]]

/** |p − ½| ≤ 0.425, in 0.425² − (p − ½)². */
const MIDDLE: Ratio = [
  [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
]

/** Down to e⁻²⁵, in √(−ln p) − 1.6. */
const TAIL: Ratio = [
  [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 7.745450142783414e-4,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    5.475938084995345e-4, 1.0507500716444169e-9,
  ],
]

/** Beyond, in √(−ln p) − 5. */
const FAR_TAIL: Ratio = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 7.868691311456133e-4, 1.8463183175100548e-5,
    1.4215117583164459e-7, 2.0442631033899397e-15,
  ],
]

/**
 * Standard normal deviate of a probability.
 * @param probability between 0 and 1, both excluded
 * @throws RangeError outside that range
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`probability must lie between 0 and 1, both excluded, got ${probability}`)
  }
  const offset = probability - 0.5
  if (Math.abs(offset) <= 0.425) return offset * ratio(MIDDLE, 0.425 * 0.425 - offset * offset)
  const depth = Math.sqrt(-Math.log(Math.min(probability, 1 - probability)))
  const deviate = depth <= 5 ? ratio(TAIL, depth - 1.6) : ratio(FAR_TAIL, depth - 5)
  return offset < 0 ? -deviate : deviate
}

function ratio([numerator, denominator]: Ratio, at: number): number {
  return polynomial(numerator, at) / polynomial(denominator, at)
}

function polynomial(coefficients: readonly number[], at: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * at + coefficient, 0)
}
