import type { AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';

const DECIMALS: Record<string, number> = { ms: 1, m: 3 };

export function valueText(value: number, unit: string): string {
  return value.toFixed(DECIMALS[unit] ?? 2);
}

/** The study as lines of a readable table. */
export function studyTable(study: AgreementStudy): string {
  const total = (name: 'reference_contacts' | 'matched' | 'missed' | 'extra'): number =>
    study.recordings.reduce((sum, row) => sum + row[name], 0);
  const athletes = new Set(study.recordings.map((row) => row.athlete)).size;
  return [
    `${study.recordings.length} recordings of ${athletes} athletes: ${total('matched')} of ${total('reference_contacts')} reference contacts matched, ${total('missed')} missed, ${total('extra')} extra`,
    '',
    ...study.quantities.flatMap(quantityLines),
    ...study.notes.map((note) => `note: ${note}`),
    ...STUDY_SOURCES,
    '',
  ].join('\n');
}

/** `ICC(A,1) 0.912 (0.874 to 0.938)`. */
export function correlationText({ form, value, low, high }: NonNullable<QuantityAgreement['icc']>): string {
  return `${form} ${value.toFixed(3)} (${low.toFixed(3)} to ${high.toFixed(3)})`;
}

/** Where each interval of a study comes from. */
export const STUDY_SOURCES = [
  'Bias, SD and limits of independent pairs, with Student intervals: Bland and Altman 1986 (doi 10.1016/S0140-6736(86)90837-8).',
  'Several pairs an athlete: variance between and within athletes by analysis of variance, Bland and Altman 2007 (doi 10.1080/10543400701329422); intervals of those limits: MOVER, Zou 2013 (Stat Methods Med Res 22:630-642).',
  'ICC(A,1), absolute agreement, and ICC(C,1), consistency: McGraw and Wong 1996 (doi 10.1037/1082-989X.1.1.30), intervals as Shrout and Fleiss 1979 (doi 10.1037/0033-2909.86.2.420).',
  'Proportional bias: least-squares line of the difference on the mean of both, Student interval of its slope. Typical error: SD of the differences over the square root of 2, Hopkins 2000 (Sports Med 30:1-15).',
  'Coverage: share of pairs within 1.96 of the stated standard uncertainties (JCGM 100:2008); 95 % is aimed at.',
];

function quantityLines(q: QuantityAgreement): string[] {
  const v = (value: number): string => valueText(value, q.unit);
  const interval = (i: { value: number; low: number; high: number }): string =>
    `${v(i.value)} (${v(i.low)} to ${v(i.high)})`;
  return [
    `${q.quantity}, ${q.unit}: ${q.pairs} pairs of ${q.athletes} athletes; ${q.method}`,
    `  bias ${interval(q.bias)}, SD ${v(q.sd)}${q.sd_between === null ? '' : ` (between athletes ${v(q.sd_between)}, within ${v(q.sd_within!)})`}`,
    `  limits of agreement ${interval(q.lower_limit)} to ${interval(q.upper_limit)}`,
    `  mean absolute error ${v(q.mean_absolute_error)}, root mean square ${v(q.root_mean_square_error)}, typical error ${v(q.typical_error)}`,
    ...(q.limits_within && q.limits_between
      ? [
          `  about an athlete's own bias ${v(q.limits_within.lower)} to ${v(q.limits_within.upper)}; athletes' biases ${v(q.limits_between.lower)} to ${v(q.limits_between.upper)}`,
        ]
      : []),
    ...[q.icc, q.icc_consistency].flatMap((icc) => (icc ? [`  ${correlationText(icc)}: ${icc.model}`] : [])),
    ...(q.proportional_slope
      ? [
          `  difference grows by ${q.proportional_slope.value.toFixed(3)} (${q.proportional_slope.low.toFixed(3)} to ${q.proportional_slope.high.toFixed(3)}) per unit of size`,
        ]
      : []),
    ...(q.coverage === null
      ? []
      : [`  stated 95 % intervals hold the reference in ${(100 * q.coverage).toFixed(1)} % of pairs`]),
    '',
  ];
}
