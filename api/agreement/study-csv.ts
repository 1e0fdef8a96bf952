import { csvText } from '../csv-text.ts';
import { speechOf } from '../../shared/messages/speeches.ts';
import type { AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';

/** Tables are data: English wherever they are written. */
const english = speechOf('en').because;
const DIGITS = 6;
const short = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(Number(value.toPrecision(DIGITS)));

/** One row a quantity: bias, limits, correlations, errors, each with its interval. */
export function quantitiesCsv(study: AgreementStudy): string {
  return csvText(study.quantities.map(quantityRow));
}

function quantityRow(q: QuantityAgreement): Record<string, string> {
  const interval = (name: string, i: { value: number; low: number; high: number } | null): Record<string, string> => ({
    [name]: short(i?.value),
    [`${name}_low`]: short(i?.low),
    [`${name}_high`]: short(i?.high),
  });
  return {
    quantity: q.quantity,
    unit: q.unit,
    athletes: String(q.athletes),
    pairs: String(q.pairs),
    ...interval('bias', q.bias),
    sd: short(q.sd),
    sd_between: short(q.sd_between),
    sd_within: short(q.sd_within),
    ...interval('lower_limit', q.lower_limit),
    ...interval('upper_limit', q.upper_limit),
    limits_within_low: short(q.limits_within?.lower),
    limits_within_high: short(q.limits_within?.upper),
    limits_between_low: short(q.limits_between?.lower),
    limits_between_high: short(q.limits_between?.upper),
    method: english(q.method),
    ...interval('proportional_slope', q.proportional_slope),
    proportional_intercept: short(q.proportional_intercept),
    icc_form: q.icc ? `${q.icc.form}: ${english(q.icc.model)}` : '',
    ...interval('icc', q.icc),
    icc_consistency_form: q.icc_consistency ? `${q.icc_consistency.form}: ${english(q.icc_consistency.model)}` : '',
    ...interval('icc_consistency', q.icc_consistency),
    typical_error: short(q.typical_error),
    mean_absolute_error: short(q.mean_absolute_error),
    root_mean_square_error: short(q.root_mean_square_error),
    coverage: short(q.coverage),
  };
}

/** One row a recording: contacts of the reference, matched, missed, extra. */
export function recordingsCsv(study: AgreementStudy): string {
  return csvText(study.recordings.map((row) => ({ ...row, clock_offset_s: short(row.clock_offset_s) })));
}

/** One row a matched contact and quantity: everything the figures rest on. */
export function pairsCsv(study: AgreementStudy): string {
  return csvText(
    study.pairs.map((p) => ({
      ...p,
      // In the shortest form that comes back as the same number: whoever computes on loses nothing.
      reference: String(p.reference),
      ours: String(p.ours),
      uncertainty: p.uncertainty === null ? '' : String(p.uncertainty),
    })),
  );
}
