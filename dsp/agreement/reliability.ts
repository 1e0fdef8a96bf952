import { correlation, mean, rootMeanSquare, standardDeviation, sum, variance } from '../numeric/statistics.ts';
import { oneWayAnova, twoWayAnova } from './analysis-of-variance.ts';

/** Repeatability of one method from test and retest. */
export interface Reliability {
  subjects: number;
  trials: number;
  /** Change of the mean from the first to the last trial. */
  mean_change: number;
  /** SD of one athlete's repeated measurements, the changes of the mean left out: sqrt of the error mean square. */
  typical_error: number;
  /** The same in per cent, from logarithms: 100 (exp(s) - 1); null where a value is not above zero. */
  typical_error_percent: number | null;
  /** Smallest change of one athlete that is beyond chance (95 %): 1.96 sqrt(2) typical errors. */
  minimal_detectable_change: number;
  /** Within-subject SD, changes of the mean included: sqrt of the within mean square. */
  within_subject_sd: number;
}

/**
 * Typical error and what follows from it.
 * Source: Hopkins 2000, Sports Med 30:1-15. With two trials, typical error = SD of the differences / sqrt(2).
 * @param table one row a subject, one column a trial, complete; at least 2 by 2
 */
export function reliability(table: readonly (readonly number[])[]): Reliability {
  const anova = twoWayAnova(table);
  const typical_error = Math.sqrt(anova.error.mean_square);
  const positive = table.every((row) => row.every((v) => v > 0));
  const logs = positive ? twoWayAnova(table.map((row) => row.map(Math.log))) : null;
  return {
    subjects: anova.n,
    trials: anova.k,
    mean_change: mean(table.map((row) => row[row.length - 1])) - mean(table.map((row) => row[0])),
    typical_error,
    typical_error_percent: logs ? 100 * Math.expm1(Math.sqrt(logs.error.mean_square)) : null,
    minimal_detectable_change: 1.96 * Math.SQRT2 * typical_error,
    within_subject_sd: Math.sqrt(anova.within.mean_square),
  };
}

/**
 * Standard error of measurement from a reliability coefficient: sd sqrt(1 - icc).
 * Source: Weir 2005, J Strength Cond Res 19:231-240 (from memory).
 * @param sd between subjects, any unit
 * @param icc reliability coefficient, 0 to 1
 * @returns in the unit of sd
 */
export function standardErrorOfMeasurement(sd: number, icc: number): number {
  return sd * Math.sqrt(1 - icc);
}

/**
 * Bland and Altman's coefficient of repeatability of two readings that should be equal: 2 x the root mean square
 * difference (the mean difference is taken to be zero). Source: Bland and Altman 1986.
 * @param first n readings
 * @param second n readings of the same n things
 * @returns in their unit
 */
export function repeatabilityCoefficient(first: readonly number[], second: readonly number[]): number {
  return 2 * rootMeanSquare(first.map((v, i) => v - second[i]));
}

/**
 * Within-subject SD of groups of any size: sqrt of the within mean square.
 * @param groups readings a subject; one subject at least has two
 * @returns in their unit
 */
export function withinSubjectSd(groups: readonly (readonly number[])[]): number {
  return Math.sqrt(oneWayAnova(groups).within.mean_square);
}

/**
 * Lin's concordance correlation: how close pairs lie to the line of identity, scale and shift included.
 * Source: Lin 1989, Biometrics 45:255-268 (variances with n in the denominator, as there).
 * @param x n values
 * @param y n values of the same n things
 * @returns -1 to 1; NaN of fewer than two
 */
export function concordance(x: readonly number[], y: readonly number[]): number {
  const n = x.length;
  const [mx, my] = [mean(x), mean(y)];
  const covariance = sum(x.map((v, i) => (v - mx) * (y[i] - my))) / n;
  const population = (v: readonly number[]): number => (variance(v) * (n - 1)) / n;
  return (2 * covariance) / (population(x) + population(y) + (mx - my) ** 2);
}

/**
 * Smallest worthwhile change of a group: 0.2 x the SD between athletes, cleared of the measurement's own scatter.
 * Source: Hopkins (from memory); clearing the error first is his advice.
 * @param values one value an athlete
 * @param measurement_sd SD of the measurement of one value, 0 when negligible
 * @returns in the unit of the values; 0 where their spread is all measurement
 */
export function smallestWorthwhileChange(values: readonly number[], measurement_sd = 0): number {
  const true_variance = standardDeviation(values) ** 2 - measurement_sd ** 2;
  return 0.2 * Math.sqrt(Math.max(0, true_variance));
}

export { correlation };
