import type { PhraseRoom } from '../../sentence.ts';

type Interval = { value: string; low: string; high: string };
const interval = ({ value, low, high }: Interval): string => `${value} (${low} to ${high})`;

/** A study of agreement with a reference system: report, table and figures. Figures of a quantity come as they are written. */
export const agreementPhrases = {
  study_title: 'Agreement with a reference system',
  made_by: ({ version, method }: { version: string; method: string }) =>
    `Cinderlane ${version}, method ${method}. Differences are Cinderlane minus the reference.`,
  found_in: ({
    recordings,
    athletes,
    matched,
    of,
    missed,
    extra,
  }: {
    recordings: number;
    athletes: number;
    matched: number;
    of: number;
    missed: number;
    extra: number;
  }) =>
    `${recordings} recordings of ${athletes} athletes: ${matched} of ${of} reference contacts matched, ${missed} missed, ${extra} extra`,
  recording: 'recording',
  athlete: 'athlete',
  contacts: 'contacts',
  matched: 'matched',
  missed: 'missed',
  extra: 'extra',
  pairs_of: ({ pairs, athletes, method }: { pairs: number; athletes: number; method: string }) =>
    `${pairs} pairs of ${athletes} athletes; ${method}.`,
  bias: ({ bias, sd, between, within }: { bias: Interval; sd: string; between: string | null; within: string }) =>
    `Bias ${interval(bias)}, SD ${sd}${between === null ? '' : ` (between athletes ${between}, within ${within})`}.`,
  limits: ({ lower, upper }: { lower: Interval; upper: Interval }) =>
    `Limits of agreement ${interval(lower)} and ${interval(upper)}; 95 % intervals in brackets.`,
  errors: ({ mean, square, typical }: { mean: string; square: string; typical: string }) =>
    `Mean absolute error ${mean}, root mean square error ${square}, typical error ${typical}.`,
  own_limits: ({
    within_low,
    within_high,
    low,
    high,
  }: {
    within_low: string;
    within_high: string;
    low: string;
    high: string;
  }) =>
    `Limits about an athlete's own bias ${within_low} to ${within_high}; athletes' biases lie within ${low} to ${high}.`,
  correlation: ({ form, icc, model }: { form: string; icc: Interval; model: string }) =>
    `${form} ${interval(icc)}: ${model}.`,
  grows: ({ slope }: { slope: Interval }) => `The difference grows by ${interval(slope)} a unit of size.`,
  coverage: ({ percent }: { percent: string }) =>
    `The stated 95 % intervals hold the reference in ${percent} % of pairs.`,
  source_limits:
    'Bias, SD and limits of independent pairs, with Student intervals: Bland and Altman 1986 (doi 10.1016/S0140-6736(86)90837-8).',
  source_repeated:
    'Several pairs an athlete: variance between and within athletes by analysis of variance, Bland and Altman 2007 (doi 10.1080/10543400701329422); intervals of those limits: MOVER, Zou 2013 (Stat Methods Med Res 22:630-642).',
  source_correlation:
    'ICC(A,1), absolute agreement, and ICC(C,1), consistency: McGraw and Wong 1996 (doi 10.1037/1082-989X.1.1.30), intervals as Shrout and Fleiss 1979 (doi 10.1037/0033-2909.86.2.420).',
  source_errors:
    'Proportional bias: least-squares line of the difference on the mean of both, Student interval of its slope. Typical error: SD of the differences over the square root of 2, Hopkins 2000 (Sports Med 30:1-15).',
  source_coverage:
    'Coverage: share of pairs within 1.96 of the stated standard uncertainties (JCGM 100:2008); 95 % is aimed at.',
  // Figures
  figure_title: ({ quantity }: { quantity: string }) => `Agreement of ${quantity} with the reference`,
  instant_axis: 'instant in the recording, s',
  mean_axis: ({ unit }: { unit: string }) => `mean of both, ${unit}`,
  difference_axis: ({ unit }: { unit: string }) =>
    `difference, ${unit}: line = bias, dashes = limits of agreement, bands = their 95 % intervals, dots = line of proportional bias`,
  left: 'left',
  right: 'right',
  caption: ({
    quantity,
    unit,
    pairs,
    bias,
    limits,
  }: {
    quantity: string;
    unit: string;
    pairs: string;
    bias: string;
    limits: string;
  }) =>
    `Differences of ${quantity} (Cinderlane minus reference, ${unit}) over the mean of both: ${pairs} ${bias} ${limits} Hollow: left foot, filled: right foot; shapes: athletes.`,
} as const satisfies PhraseRoom;
