import { betaTerm, gammaTerm } from './saddle-point.ts';

/** Both sides of a distribution function, each with all its digits. */
export interface Tails {
  /** Probability below the argument. */
  lower: number;
  /** Probability above it. */
  upper: number;
}

const TINY = 1e-300;
/** Far beyond what any argument needs: the fractions below settle within some square root of their parameters. */
const MOST_TERMS = 1e6;

/**
 * A continued fraction c0 + n1 / (d1 + n2 / (d2 + ...)) by Lentz's method (Numerical Recipes, section 5.2).
 * @param first c0, not 0
 * @param term numerator and denominator of place k = 1, 2, ...
 */
function continuedFraction(first: number, term: (k: number) => [number, number]): number {
  let value = first;
  let c = value;
  let d = 0;
  for (let k = 1; k < MOST_TERMS; k++) {
    const [numerator, denominator] = term(k);
    d = 1 / (denominator + numerator * d || TINY);
    c = denominator + numerator / c || TINY;
    value *= c * d;
    if (Math.abs(c * d - 1) < 3e-16) break;
  }
  return value;
}

/**
 * Regularised incomplete beta function (NIST DLMF 8.17).
 * @param a above 0
 * @param b above 0
 * @param x 0 to 1
 * @param y 1 - x, given apart so that it keeps its digits where x is close to 1
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (y <= 0) return { lower: 1, upper: 0 };
  if (x > (a + 1) / (a + b + 2)) {
    const { lower, upper } = betaBelow(b, a, y, x);
    return { lower: upper, upper: lower };
  }
  return betaBelow(a, b, x, y);
}

/**
 * Didonato and Morris 1992 (ACM TOMS 18:360-373, equation 9), which settles quickly below the middle of the distribution and
 * takes a y - b x as it is, so that nothing cancels where x is close to 1.
 */
function betaBelow(a: number, b: number, x: number, y: number): Tails {
  const denominator = (m: number) =>
    (m === 0 ? 0 : m + (m * (b - m) * x) / (a + 2 * m - 1)) +
    ((a + m) * (a * y - b * x + 1 + m * (1 + y))) / (a + 2 * m + 1);
  const fraction = continuedFraction(denominator(0), (m) => {
    const d = a + 2 * m - 1;
    return [((a + m - 1) / d) * ((a + b + m - 1) / d) * m * (b - m) * x * x, denominator(m)];
  });
  const lower = betaTerm(a, b, x, y) / fraction;
  return { lower, upper: 1 - lower };
}

/** Regularised incomplete gamma function (NIST DLMF 8.2). @param a above 0 @param x 0 or more */
export function incompleteGamma(a: number, x: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x < a + 1) {
    // DLMF 8.11.4.
    let term = 1 / a;
    let sum = term;
    for (let k = 1; term > sum * 1e-17; k++) {
      term *= x / (a + k);
      sum += term;
    }
    const lower = gammaTerm(a, x) * sum;
    return { lower, upper: 1 - lower };
  }
  // DLMF 8.9.2.
  const fraction = continuedFraction(x + 1 - a, (k) => [-k * (k - a), x + 2 * k + 1 - a]);
  const upper = gammaTerm(a, x) / fraction;
  return { lower: 1 - upper, upper };
}

/**
 * Where a distribution over the positive numbers reaches given tails.
 * @param tails of the distribution at a value
 * @param slope derivative of the lower tail by the value's logarithm
 * @param wanted both tails; the smaller one is solved for
 * @returns the value; 0 and infinity at the ends
 */
export function quantileOf(tails: (value: number) => Tails, slope: (value: number) => number, wanted: Tails): number {
  if (wanted.lower <= 0) return 0;
  if (wanted.upper <= 0) return Number.POSITIVE_INFINITY;
  const byLower = wanted.lower <= wanted.upper;
  const target = byLower ? wanted.lower : wanted.upper;
  let [low, high] = [1e-300, 1e300];
  let value = 1;
  let before = Number.POSITIVE_INFINITY;
  for (let step = 0; step < 200; step++) {
    const reached = byLower ? tails(value).lower : tails(value).upper;
    // The log of a tail is nearly straight far out, so that Newton's steps arrive from anywhere.
    const error = Math.log(reached / target) * (byLower ? 1 : -1);
    if (error > 0) high = value;
    else low = value;
    // Steps multiply: a logarithm kept instead would lose digits of what is returned.
    const move = (error * reached) / slope(value);
    const newton = value * Math.exp(-move);
    const size = Math.abs(move);
    // Arrived: steps no longer shrink, because what they follow is rounding.
    if (size < 2e-16 || (size < 1e-12 && size >= before)) break;
    before = size;
    value = newton >= low && newton <= high ? newton : Math.sqrt(low) * Math.sqrt(high);
    if (high - low <= 2e-16 * high) break;
  }
  return value;
}
