import { robustCentre } from '../numeric/robust.ts';
import { mean } from '../numeric/statistics.ts';
import { priorVariances } from './priors.ts';
import { variationComponents, type VariationComponents } from './variation.ts';

/** One quantity of one earlier repetition of the same athlete, effort and course. */
export interface BaselineValue {
  value: number;
  /** Any key that is equal for repetitions of one session. */
  session: string | number;
  /** Day of the session, counted from any fixed day. */
  day: number;
  /** Contacts that the value is the mean of; 1 without. */
  contacts?: number;
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
  /** Fewer than six repetitions: most of what is known about the variation is the published one. */
  provisional: boolean;
  /** Recent weeks weigh more: see `HALF_LIFE_DAYS`. */
  centre: number;
  /** Days after which a repetition counts half. */
  half_life_days: number;
  /** SD of one repetition around the centre, over sessions: the band of normal variation is centre +- this. */
  typical_error: number;
  low: number;
  high: number;
  smallest_worthwhile_change: number;
  /** A single repetition is flagged from this distance from the centre on; see `judgeRepetition`. */
  flag_from: number;
  /** Variance of the centre itself. */
  centre_variance: number;
  /** See `knownComponents`. */
  components: VariationComponents;
  /** Where the variation is from: 'own', or the source of the prior. */
  variation_source: string;
  /** Values left out because they are too old. */
  expired: number;
}

/** Own repetitions needed before the athlete's own variation counts as known. */
export const OWN_VARIATION_FROM = 6;
/** Latest repetitions used; older ones describe an earlier athlete. */
const WINDOW = 40;
/**
 * Days after which a repetition no longer counts. Adolescents: over 21 months of growth speed rose 10 %, contact time
 * changed by 2 to 4 % (Meyers and others, n = 189), about 1 % in two months, a quarter of the typical error.
 */
const EXPIRY_DAYS = { adolescent: 60, adult: 180 };
/**
 * Normal follows the athlete: a repetition of that many days ago counts half of today's. Own choice, weighed by simulation:
 * shorter halves the number of repetitions that normal rests on, longer keeps calling a lasting gain of two months ago new.
 */
const HALF_LIFE_DAYS = { adolescent: 21, adult: 28 };
/** Own degrees of freedom within sessions from which the published variation no longer counts; it fills up what is missing. */
const OWN_FREEDOM = 6;
/** Degrees of freedom that the usual ratio of variation between days to that within one counts for. */
const BETWEEN_PRIOR_DF = 4;
/** That ratio where nothing is published; own choice, near what the published parts give for twelve contacts. */
const BETWEEN_RATIO = 0.5;
/** The part between days is never taken for less than this share of what is usual. */
const LEAST_BETWEEN = 0.25;
/** Values that happen to agree do not prove that nothing varies: at least a thousandth of their size. */
const LEAST_SHARE = 0.001;
/**
 * 0.3 of the athlete's own variation: the smallest change that matters to a top athlete. Source: Hopkins 2004, Sportscience 8.
 */
const WORTHWHILE_SHARE = 0.3;
/** A difference of two single values is beyond chance (95 %) from here on. Source: Hopkins 2000, Sports Med 30:1-15. */
export const SINGLE_FACTOR = 1.96 * Math.SQRT2;

/**
 * Baseline of one quantity. Robust: the centre is Huber's, outliers are pulled in before the variation is measured.
 * @param values earlier repetitions, oldest first, today's session left out
 * @returns null when no value is left, or when nobody published how the quantity varies and there are too few to see
 */
export function athleteBaseline(values: readonly BaselineValue[], options: BaselineOptions): Baseline | null {
  const kind = options.adolescent ? 'adolescent' : 'adult';
  const valid = values.filter((v) => Number.isFinite(v.value));
  const fresh = valid.filter((v) => options.day - v.day <= EXPIRY_DAYS[kind]).slice(-WINDOW);
  if (fresh.length === 0) return null;
  const shares = fresh.map((v) => 2 ** (-Math.max(0, options.day - v.day) / HALF_LIFE_DAYS[kind]));
  const centre = robustCentre(
    fresh.map((v) => v.value),
    shares,
  );
  const components = knownComponents(options.quantity, centre, fresh);
  if (!components) return null;
  const provisional = fresh.length < OWN_VARIATION_FROM;
  const typical_error = Math.sqrt(components.within + components.between);
  const worthwhile = options.smallest_worthwhile_change ?? WORTHWHILE_SHARE * typical_error;
  return {
    quantity: options.quantity,
    n: fresh.length,
    sessions: components.sessions,
    provisional,
    centre,
    half_life_days: HALF_LIFE_DAYS[kind],
    typical_error,
    low: centre - typical_error,
    high: centre + typical_error,
    smallest_worthwhile_change: worthwhile,
    flag_from: Math.max(worthwhile, SINGLE_FACTOR * typical_error),
    centre_variance: centreVariance(components, fresh, shares),
    components,
    variation_source: provisional ? components.source : 'own',
    expired: valid.filter((v) => options.day - v.day > EXPIRY_DAYS[kind]).length,
  };
}

/** How well the weighted centre is known: days and repetitions count by their shares. */
function centreVariance(
  components: VariationComponents,
  values: readonly BaselineValue[],
  shares: readonly number[],
): number {
  const days = new Map<string | number, number>();
  values.forEach((v, i) => {
    days.set(v.session, (days.get(v.session) ?? 0) + shares[i]);
  });
  const total = shares.reduce((a, b) => a + b, 0);
  const squares = (parts: Iterable<number>) => [...parts].reduce((sum, part) => sum + (part / total) ** 2, 0);
  return components.between * squares(days.values()) + components.within * squares(shares);
}

/**
 * The athlete's own variation. Within a day it is drawn to the published one only while its own degrees of freedom are
 * few: published variation, of others and over fewer steps, is larger than most athletes' and would hide their changes.
 * The part between days is poorly known from a few days and may come out at nothing by chance, which would flag every good
 * day: it is always drawn to its usual ratio to the part within.
 * @param quantity name of the field
 * @param centre the quantity's usual value, in its own unit
 * @returns null where nothing is published and own repetitions are too few
 */
export function knownComponents(
  quantity: string,
  centre: number,
  values: readonly BaselineValue[],
): (VariationComponents & { source: string }) | null {
  const own = variationComponents(
    values.map((v) => v.value),
    values.map((v) => v.session),
    values.map((v) => v.day),
  );
  const prior = priorVariances(quantity, centre, mean(values.map((v) => v.contacts ?? 1)));
  const own_df = Math.max(0, own.within_df);
  const prior_df = Math.max(0, OWN_FREEDOM - own_df);
  if (!prior && (own.repetitions < OWN_VARIATION_FROM || own_df < 2)) return null;
  const pooled = prior ? (own_df * own.within + prior_df * prior.within) / (own_df + prior_df) : own.within;
  const within = Math.max(pooled, (LEAST_SHARE * centre) ** 2);
  // Values that are all the same and zero tell nothing of what would be unusual.
  if (!(within > 0)) return null;
  const usual = within * (prior && prior.within > 0 ? prior.between / prior.within : BETWEEN_RATIO);
  const df = Math.max(0, own.between_df);
  const between = (df * own.between + BETWEEN_PRIOR_DF * usual) / (df + BETWEEN_PRIOR_DF);
  return {
    ...own,
    within,
    between: Math.max(between, LEAST_BETWEEN * usual),
    within_df: own_df + (prior ? prior_df : 0),
    between_df: df + BETWEEN_PRIOR_DF,
    source: prior?.source ?? 'own',
  };
}
