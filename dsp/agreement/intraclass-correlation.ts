import { because, type CodedReason } from '../../shared/reason.ts';
import { fisherQuantile, fisherUpper } from '../numeric/distributions.ts';
import { twoWayAnova } from './analysis-of-variance.ts';

/**
 * Forms of the intraclass correlation, as Shrout and Fleiss name them: (model, unit).
 * Model 1: each target has its own raters. Model 2: the raters are a random sample of raters (absolute agreement).
 * Model 3: these raters are all there are (consistency). Unit 1: one rating; k: the mean of all k.
 */
export type IntraclassForm = '1,1' | '2,1' | '3,1' | '1,k' | '2,k' | '3,k';
export const INTRACLASS_FORMS: readonly IntraclassForm[] = ['1,1', '2,1', '3,1', '1,k', '2,k', '3,k'];

export interface IntraclassCorrelation {
  form: IntraclassForm;
  value: number;
  low: number;
  high: number;
  /** F test of 'the targets do not differ'. */
  f: number;
  p: number;
  /** The model, for a report. */
  model: CodedReason;
}

/** The same forms as McGraw and Wong name them: A for absolute agreement, C for consistency (1996, doi 10.1037/1082-989X.1.1.30). */
export const MCGRAW_WONG: Record<IntraclassForm, string> = {
  '1,1': 'ICC(1)',
  '2,1': 'ICC(A,1)',
  '3,1': 'ICC(C,1)',
  '1,k': 'ICC(k)',
  '2,k': 'ICC(A,k)',
  '3,k': 'ICC(C,k)',
};

const MODELS: Record<IntraclassForm, CodedReason> = {
  '1,1': because('icc_one_way_single'),
  '2,1': because('icc_agreement_single'),
  '3,1': because('icc_consistency_single'),
  '1,k': because('icc_one_way_mean'),
  '2,k': because('icc_agreement_mean'),
  '3,k': because('icc_consistency_mean'),
};

/**
 * Intraclass correlation with its confidence interval.
 * Source: Shrout and Fleiss 1979, Psychol Bull 86:420-428, doi 10.1037/0033-2909.86.2.420.
 * @param table n targets (rows, at least 2) by k measurements (columns, at least 2), complete
 * @param confidence default 0.95
 */
export function intraclassCorrelation(
  table: readonly (readonly number[])[],
  form: IntraclassForm,
  confidence = 0.95,
): IntraclassCorrelation {
  const { rows, columns, error, within, n, k } = twoWayAnova(table);
  const [bms, jms, ems, wms] = [rows.mean_square, columns.mean_square, error.mean_square, within.mean_square];
  const upper = 1 - (1 - confidence) / 2;
  const residual = form[0] === '1' ? within : error;
  const f = bms / residual.mean_square;
  const fLow = f / fisherQuantile(upper, rows.df, residual.df);
  const fHigh = f * fisherQuantile(upper, residual.df, rows.df);
  const single = (ratio: number): number => (ratio - 1) / (ratio + k - 1);
  const average = (ratio: number): number => 1 - 1 / ratio;
  const result = (value: number, low: number, high: number): IntraclassCorrelation => ({
    form,
    value,
    low,
    high,
    f,
    p: fisherUpper(f, rows.df, residual.df),
    model: MODELS[form],
  });
  if (form === '1,1') return result((bms - wms) / (bms + (k - 1) * wms), single(fLow), single(fHigh));
  if (form === '3,1') return result((bms - ems) / (bms + (k - 1) * ems), single(fLow), single(fHigh));
  if (form === '1,k') return result((bms - wms) / bms, average(fLow), average(fHigh));
  if (form === '3,k') return result((bms - ems) / bms, average(fLow), average(fHigh));

  const icc = (bms - ems) / (bms + (k - 1) * ems + (k * (jms - ems)) / n);
  const fj = jms / ems;
  const a = k * icc * fj + n * (1 + (k - 1) * icc) - k * icc;
  const df =
    ((k - 1) * (n - 1) * a ** 2) / ((n - 1) * k ** 2 * icc ** 2 * fj ** 2 + (n * (1 + (k - 1) * icc) - k * icc) ** 2);
  const above = fisherQuantile(upper, n - 1, df);
  const below = fisherQuantile(upper, df, n - 1);
  const low = (n * (bms - above * ems)) / (above * (k * jms + (k * n - k - n) * ems) + n * bms);
  const high = (n * (below * bms - ems)) / (k * jms + (k * n - k - n) * ems + n * below * bms);
  if (form === '2,1') return result(icc, low, high);
  // Spearman and Brown's formula takes the limits of one measurement to those of the mean of k.
  const meanOfK = (r: number): number => (k * r) / (1 + (k - 1) * r);
  return result((bms - ems) / (bms + (jms - ems) / n), meanOfK(low), meanOfK(high));
}
