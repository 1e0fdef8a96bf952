import { agreement, repeatedAgreement } from '../../../dsp/agreement/index.ts';
import { type CaseResult, QUANTITIES, type Quantity, type StatedError } from './judge-case.ts';

/** Ends of a 95 % confidence interval about a value. */
export type WithInterval = { value: number; low: number; high: number };

export interface QuantityFigures {
  n: number;
  bias: WithInterval;
  sd: number;
  root_mean_square: number;
  /** Limits of agreement, bias -+ 1.96 SD. */
  lower_limit: WithInterval;
  upper_limit: WithInterval;
  /** Share of errors inside the stated 95 % interval; null where nothing is stated. */
  coverage: number | null;
  /** Largest bias and SD of any one case with at least six contacts. */
  worst_bias: number;
  worst_sd: number;
}

export interface Figures {
  label: string;
  cases: number;
  reference: number;
  found: number;
  missed: number;
  extra: number;
  quantities: Partial<Record<Quantity, QuantityFigures>>;
}

/** Share of errors within 1.96 stated standard uncertainties. */
export function coverage(errors: StatedError[]): number | null {
  const stated = errors.filter((e) => e.stated_u !== null);
  if (stated.length === 0) return null;
  return stated.filter((e) => Math.abs(e.error) <= 1.96 * (e.stated_u as number)).length / stated.length;
}

/**
 * Bias, spread and limits over several cases; each case (runner and speed) is one subject with many contacts, so the
 * intervals do not pretend that contacts of one runner are independent.
 */
export function pool(label: string, results: CaseResult[]): Figures {
  const total = (key: 'reference' | 'found' | 'missed' | 'extra') => results.reduce((sum, r) => sum + r[key], 0);
  const quantities: Figures['quantities'] = {};
  for (const quantity of QUANTITIES) {
    const groups = results.map((r) => r.errors[quantity].map((e) => e.error)).filter((group) => group.length > 1);
    if (groups.length === 0) continue;
    const all = groups.flat();
    const figures =
      groups.length > 1 ? repeatedAgreement(groups) : agreement(groups[0], new Array<number>(groups[0].length).fill(0));
    const each = groups
      .filter((group) => group.length >= 6)
      .map((group) => agreement(group, new Array<number>(group.length).fill(0)));
    quantities[quantity] = {
      n: all.length,
      bias: figures.bias,
      sd: figures.sd,
      root_mean_square: Math.sqrt(all.reduce((sum, e) => sum + e * e, 0) / all.length),
      lower_limit: figures.lower_limit,
      upper_limit: figures.upper_limit,
      coverage: coverage(results.flatMap((r) => r.errors[quantity])),
      worst_bias: each.reduce((worst, a) => (Math.abs(a.bias.value) > Math.abs(worst) ? a.bias.value : worst), 0),
      worst_sd: Math.max(0, ...each.map((a) => a.sd)),
    };
  }
  return {
    label,
    cases: results.length,
    reference: total('reference'),
    found: total('found'),
    missed: total('missed'),
    extra: total('extra'),
    quantities,
  };
}
