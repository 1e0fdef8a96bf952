/**
 * The rule before recent weeks weighed more: kept only so that `npm run verdict:figures` can print figures before and
 * after. Equal weights, own variation from six repetitions on and a published 4 % before, the last one, two or three
 * repetitions judged. Nothing in the product uses it.
 */
import { studentQuantile } from '../../../../dsp/numeric/distributions.ts';
import { robustCentre, winsorised } from '../../../../dsp/numeric/robust.ts';
import { mean, variance } from '../../../../dsp/numeric/statistics.ts';
import type { BaselineValue } from '../../../../dsp/athlete/baseline.ts';

const RULES = [
  { length: 1, alpha: 0.01 },
  { length: 2, alpha: 0.04 },
  { length: 3, alpha: 0.045 },
];

export interface FormerBaseline {
  centre: number;
  within: number;
  between: number;
  within_df: number;
  between_df: number;
  n: number;
  sessions: number;
}

export function formerBaseline(values: readonly BaselineValue[]): FormerBaseline {
  const x = values.slice(-40).map((v) => v.value);
  const keys = values.slice(-40).map((v) => v.session);
  const centre = robustCentre(x);
  const sessions = new Set(keys).size;
  const prior = (0.04 * centre) ** 2;
  const counts = { centre, n: x.length, sessions };
  if (x.length < 6) {
    const df = Number.POSITIVE_INFINITY;
    return { ...counts, within: 0.8 * prior, between: 0.2 * prior, within_df: df, between_df: df };
  }
  const found = formerComponents(x, keys);
  const total = Math.max(found.within + found.between, 0.15 ** 2 * prior);
  if (found.within_df < 1) return { ...counts, ...found };
  const own = found.within + found.between > 0 ? found.between / (found.within + found.between) : 0;
  const share = (found.between_df * own + 3 * 0.2) / (found.between_df + 3);
  return {
    ...counts,
    within: (1 - share) * total,
    between: share * total,
    within_df: found.within_df,
    between_df: found.between_df + 3,
  };
}

/** Did the rule speak after the last of the session's repetitions, and which way? */
export function formerVerdict(b: FormerBaseline, session: readonly number[]): 'above' | 'below' | null {
  const typical = Math.sqrt(b.within + b.between);
  for (const { length, alpha } of RULES) {
    if (session.length < length) break;
    const change = mean(session.slice(-length)) - b.centre;
    const centre_variance = b.between / b.sessions + b.within / b.n;
    const chance =
      studentQuantile(1 - alpha / 2, formerFreedom(b, length)) *
      Math.sqrt(b.between + b.within / length + centre_variance);
    const floor = length === 1 ? 1.96 * Math.SQRT2 * typical : 0;
    if (Math.abs(change) > Math.max(0.3 * typical, floor, chance)) return change > 0 ? 'above' : 'below';
  }
  return null;
}

function formerFreedom(b: FormerBaseline, length: number): number {
  if (!Number.isFinite(b.within_df)) return 1e6;
  const parts = [
    { variance: b.between, df: Math.max(1, b.between_df) },
    { variance: b.within / length, df: Math.max(1, b.within_df) },
  ];
  const total = parts.reduce((sum, p) => sum + p.variance, 0);
  const effective = total ** 2 / parts.reduce((sum, p) => sum + p.variance ** 2 / p.df, 0);
  return Math.min(effective, Math.max(1, b.n - 1));
}

function formerComponents(values: readonly number[], keys: readonly (string | number)[]) {
  const x = winsorised(values);
  const groups = new Map<string | number, number[]>();
  keys.forEach((key, i) => {
    groups.set(key, [...(groups.get(key) ?? []), x[i]]);
  });
  const parts = [...groups.values()];
  const [n, k, grand] = [x.length, parts.length, mean(x)];
  const counts = { within_df: n - k, between_df: k - 1 };
  if (n - k < 1) return { within: 0, between: variance(x), ...counts };
  if (k < 2) return { within: variance(x), between: 0, ...counts };
  let [ssw, ssb, squares] = [0, 0, 0];
  for (const part of parts) {
    const m = mean(part);
    ssw += part.reduce((sum, v) => sum + (v - m) ** 2, 0);
    ssb += part.length * (m - grand) ** 2;
    squares += part.length ** 2;
  }
  const within = ssw / (n - k);
  const size = (n - squares / n) / (k - 1);
  return { within, between: Math.max(0, (ssb / (k - 1) - within) / size), ...counts };
}
