import { fitSprintCurve, type Prior, type SprintFit, type SprintFitOptions, type TimedDistance } from '../fit/index.ts';

/** What was supposed before looking at the times, and what it does to the start of the curve, vmax / tau, in proportion to which F0 goes. */
export interface PriorEffect {
  /** Relative change when all of it is one standard uncertainty higher, root sum of squares; 0 where nothing was supposed. */
  f0_prior_u_share: number;
  /** By how much it pulled, relative to what times and strides give by themselves; null where these settle no curve. */
  f0_prior_pull_share: number | null;
}

/** As good as nothing supposed. */
const WIDER = 100;
/** A curve that moves by more than this without what was supposed is no curve by itself. */
const MOST_PULL = 1;

/**
 * The effect of the priors on a fitted curve, by fitting it again.
 * @param settled whether times and strides are enough for a curve of three parameters by themselves
 */
export function priorEffect(
  times: readonly TimedDistance[],
  options: SprintFitOptions,
  fit: SprintFit,
  settled: boolean,
): PriorEffect {
  const changed = (change: Partial<SprintFitOptions>): number => {
    const other = fitSprintCurve(times, { ...options, ...change });
    return other ? (other.vmax_mps / other.tau_s) * (fit.tau_s / fit.vmax_mps) - 1 : Number.NaN;
  };
  const { time_shift, tau } = options;
  const shift = time_shift && time_shift.u > 0 ? time_shift : null;
  const moved = [
    ...(shift ? [changed({ time_shift: { ...shift, value: shift.value + shift.u } })] : []),
    ...(tau ? [changed({ tau: { ...tau, value: tau.value * (1 + tau.u) } })] : []),
  ];
  const wide = (prior: Prior): Prior => ({ ...prior, u: WIDER * prior.u });
  const free =
    settled && moved.length > 0
      ? changed({ ...(shift ? { time_shift: wide(shift) } : {}), ...(tau ? { tau: wide(tau) } : {}) })
      : Number.NaN;
  return {
    f0_prior_u_share: Math.hypot(...moved.map((share) => share || 0)),
    f0_prior_pull_share: Math.abs(free) < MOST_PULL ? 1 / (1 + free) - 1 : null,
  };
}
