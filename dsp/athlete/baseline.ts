import { robustCentre } from '../numeric/robust.ts';
import { variationPrior } from './priors.ts';
import { variationComponents, type VariationComponents } from './variation.ts';

/** One quantity of one earlier repetition of the same athlete, effort and course. */
export interface BaselineValue {
  value: number;
  /** Any key that is equal for repetitions of one session. */
  session: string | number;
  /** Day of the session, counted from any fixed day. */
  day: number;
}

export interface BaselineOptions {
  /** Contact field or derived quantity; chooses the prior. */
  quantity: string;
  /** The day to judge, on the same count: older values may have expired. */
  day: number;
  /** A growing athlete's old repetitions say nothing about today. */
  adolescent?: boolean;
  /** Change that matters to the coach, in the quantity's unit, e.g. 0.2 x the SD between athletes of the group. */
  smallest_worthwhile_change?: number;
}

/** What is normal for one athlete at one effort and course. */
export interface Baseline {
  quantity: string;
  /** Repetitions and sessions it rests on. */
  n: number;
  sessions: number;
  /** Fewer than six repetitions: the published variation stands in for the athlete's own. */
  provisional: boolean;
  centre: number;
  /** SD of one repetition around the centre, over sessions: the band of normal variation is centre +- this. */
  typical_error: number;
  low: number;
  high: number;
  smallest_worthwhile_change: number;
  /** A single repetition is flagged from this distance from the centre on; see `judgeRepetition`. */
  flag_from: number;
  /** Variance of the centre itself. */
  centre_variance: number;
  components: VariationComponents;
  /** Where the variation is from: 'own', or the source of the prior. */
  variation_source: string;
  /** Values left out because they are too old. */
  expired: number;
}

/** Own repetitions needed before the athlete's own variation counts. */
export const OWN_VARIATION_FROM = 6;
/** Latest repetitions used; older ones describe an earlier athlete. */
const WINDOW = 40;
/**
 * Days after which a repetition no longer counts. Adolescents: over 21 months of growth speed rose 10 %, contact time
 * changed by 2 to 4 % (Meyers and others, n = 189), about 1 % in two months, a quarter of the typical error.
 */
const EXPIRY_DAYS = { adolescent: 60, adult: 180 };
/**
 * Usual share of the total variance that lies between sessions, and how many sessions it counts for. Common practice.
 */
const BETWEEN_SHARE = 0.2;
const BETWEEN_PRIOR_SESSIONS = 3;
/** Nobody varies by less than this share of what is usual; rounded values that happen to agree do not prove it. */
const LEAST_SHARE = 0.15;
/**
 * 0.3 of the athlete's own variation: the smallest change that matters to a top athlete (Hopkins 2004, from memory).
 */
const WORTHWHILE_SHARE = 0.3;
/** A difference of two single values is beyond chance (95 %) from here on. Source: Hopkins 2000, Sports Med 30:1-15. */
export const SINGLE_FACTOR = 1.96 * Math.SQRT2;

/**
 * Baseline of one quantity. Robust: the centre is Huber's, outliers are pulled in before the variation is measured.
 * @param values earlier repetitions, oldest first, today's session left out
 * @returns null when no value is left
 */
export function athleteBaseline(values: readonly BaselineValue[], options: BaselineOptions): Baseline | null {
  const expiry = options.adolescent ? EXPIRY_DAYS.adolescent : EXPIRY_DAYS.adult;
  const valid = values.filter((v) => Number.isFinite(v.value));
  const fresh = valid.filter((v) => options.day - v.day <= expiry).slice(-WINDOW);
  if (fresh.length === 0) return null;
  const numbers = fresh.map((v) => v.value);
  const n = numbers.length;
  const centre = robustCentre(numbers);
  const provisional = n < OWN_VARIATION_FROM;
  const components = provisional
    ? priorComponents(options.quantity, centre, fresh)
    : ownComponents(options.quantity, centre, numbers, fresh);
  const typical_error = Math.sqrt(components.within + components.between);
  const worthwhile = options.smallest_worthwhile_change ?? WORTHWHILE_SHARE * typical_error;
  const baseline: Baseline = {
    quantity: options.quantity,
    n,
    sessions: components.sessions,
    provisional,
    centre,
    typical_error,
    low: centre - typical_error,
    high: centre + typical_error,
    smallest_worthwhile_change: worthwhile,
    flag_from: 0,
    centre_variance: components.between / components.sessions + components.within / n,
    components,
    variation_source: provisional ? variationPrior(options.quantity).source : 'own',
    expired: valid.filter((v) => options.day - v.day > expiry).length,
  };
  return { ...baseline, flag_from: Math.max(worthwhile, SINGLE_FACTOR * typical_error) };
}

function sessionCount(values: readonly BaselineValue[]): number {
  return new Set(values.map((v) => v.session)).size;
}

/** Usual variance of a quantity of this size by the published variation. */
function priorVariance(quantity: string, centre: number): number {
  const prior = variationPrior(quantity);
  return (prior.sd ?? (prior.cv ?? 0) * Math.abs(centre)) ** 2;
}

function priorComponents(quantity: string, centre: number, values: readonly BaselineValue[]): VariationComponents {
  const total = priorVariance(quantity, centre);
  return {
    within: (1 - BETWEEN_SHARE) * total,
    between: BETWEEN_SHARE * total,
    within_df: Number.POSITIVE_INFINITY,
    between_df: Number.POSITIVE_INFINITY,
    repetitions: values.length,
    sessions: sessionCount(values),
  };
}

/**
 * The athlete's own variation. The split between and within sessions is poorly known from a few sessions, and a part
 * cut off at zero would flag every good day: the share between is drawn towards the usual one, which counts as a few
 * sessions.
 */
function ownComponents(
  quantity: string,
  centre: number,
  numbers: readonly number[],
  values: readonly BaselineValue[],
): VariationComponents {
  const found = variationComponents(
    numbers,
    values.map((v) => v.session),
  );
  const total = Math.max(found.within + found.between, LEAST_SHARE ** 2 * priorVariance(quantity, centre));
  if (!(found.within_df >= 1 && total > 0)) return found;
  const own = found.within + found.between > 0 ? found.between / (found.within + found.between) : 0;
  const df = found.between_df;
  const share = (df * own + BETWEEN_PRIOR_SESSIONS * BETWEEN_SHARE) / (df + BETWEEN_PRIOR_SESSIONS);
  return {
    ...found,
    between: share * total,
    within: (1 - share) * total,
    between_df: df + BETWEEN_PRIOR_SESSIONS,
  };
}
