/** One estimate of an instant with its standard deviation; the unit is the caller's (seconds or samples). */
export interface Estimate {
  name: string;
  at: number;
  sd: number;
}

/** A fused instant. */
export interface Fused {
  at: number;
  /** Standard uncertainty. */
  u: number;
  /** Root mean square of the estimates' distances from it in their standard deviations: above 2, they disagree. */
  disagreement: number;
}

/** Beyond so many standard deviations an estimate counts ever less (Huber 1964; 1.345 keeps 95 % efficiency). */
const HUBER = 1.345;

/** Rounds of re-weighting: the last changes below a hundredth of a standard deviation. */
const ROUNDS = 20;

/**
 * Mean weighted by inverse variance, with Huber's weights against an estimate far from the rest. The uncertainty is that of
 * the weighted mean, but never below that of the best estimate divided by sqrt(2): the features share noise and are not
 * independent. It grows with their disagreement (Birge ratio, Birge 1932).
 * @param threshold from so many standard deviations on an estimate counts ever less; near zero the result is a weighted median
 * @returns null of no estimates
 */
export function fuse(estimates: readonly Estimate[], threshold = HUBER): Fused | null {
  if (estimates.length === 0) return null;
  const weights = estimates.map(({ sd }) => 1 / (sd * sd));
  let at = weightedMean(estimates, weights);
  for (let round = 0; round < ROUNDS; round++) {
    const robust = estimates.map(({ at: t, sd }, k) => {
      const z = Math.abs(t - at) / sd;
      return z > threshold ? (weights[k] * threshold) / z : weights[k];
    });
    at = weightedMean(estimates, robust);
  }
  const total = weights.reduce((a, b) => a + b, 0);
  const chi = estimates.reduce((sum, { at: t, sd }) => sum + ((t - at) / sd) ** 2, 0);
  const disagreement = Math.sqrt(chi / estimates.length);
  const birge = estimates.length > 1 ? Math.max(1, Math.sqrt(chi / (estimates.length - 1))) : 1;
  const least = Math.min(...estimates.map(({ sd }) => sd)) / Math.SQRT2;
  return { at, u: Math.max(birge / Math.sqrt(total), least), disagreement };
}

function weightedMean(estimates: readonly Estimate[], weights: readonly number[]): number {
  let [sum, total] = [0, 0];
  estimates.forEach(({ at }, k) => {
    sum += weights[k] * at;
    total += weights[k];
  });
  return sum / total;
}
