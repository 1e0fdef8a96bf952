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
    '',
  ].join('\n');
}

function quantityLines(q: QuantityAgreement): string[] {
  const v = (value: number): string => valueText(value, q.unit);
  const interval = (i: { value: number; low: number; high: number }): string =>
    `${v(i.value)} (${v(i.low)} to ${v(i.high)})`;
  return [
    `${q.quantity}, ${q.unit}: ${q.pairs} pairs of ${q.athletes} athletes; ${q.method}`,
    `  bias ${interval(q.bias)}, SD ${v(q.sd)}${q.sd_between === null ? '' : ` (between athletes ${v(q.sd_between)}, within ${v(q.sd_within!)})`}`,
    `  limits of agreement ${interval(q.lower_limit)} to ${interval(q.upper_limit)}`,
    `  mean absolute error ${v(q.mean_absolute_error)}, root mean square ${v(q.root_mean_square_error)}, typical error ${v(q.typical_error)}`,
    ...(q.icc
      ? [
          `  ${q.icc.form} ${q.icc.value.toFixed(3)} (${q.icc.low.toFixed(3)} to ${q.icc.high.toFixed(3)}): ${q.icc.model}`,
        ]
      : []),
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
