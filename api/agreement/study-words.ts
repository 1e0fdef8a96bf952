import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import { speechOf } from '../../shared/messages/speeches.ts';
import type { AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';

const DECIMALS: Record<string, number> = { ms: 1, m: 3 };
const RATIO_DECIMALS = 3;

type Interval = { value: number; low: number; high: number };

/** Puts the numbers of one quantity into the language's words. */
function wordsOf(q: QuantityAgreement, words: JudgementWords) {
  const speech = speechOf(words.language);
  const decimals = DECIMALS[q.unit] ?? 2;
  const v = (value: number): string => speech.number(value, decimals);
  const text = ({ value, low, high }: Interval, places = decimals) => ({
    value: speech.number(value, places),
    low: speech.number(low, places),
    high: speech.number(high, places),
  });
  return { speech, v, text, t: words.coach.agreement };
}

/** Pairs, bias and limits: the sentences that a figure's caption shares with the report. */
export function mainSentences(q: QuantityAgreement, words: JudgementWords) {
  const { speech, v, text, t } = wordsOf(q, words);
  return {
    pairs: t('pairs_of', { pairs: q.pairs, athletes: q.athletes, method: speech.because(q.method) }),
    bias: t('bias', {
      bias: text(q.bias),
      sd: v(q.sd),
      between: q.sd_between === null ? null : v(q.sd_between),
      within: q.sd_within === null ? '' : v(q.sd_within),
    }),
    limits: t('limits', { lower: text(q.lower_limit), upper: text(q.upper_limit) }),
  };
}

/** What a study says about one quantity, a sentence each. */
export function quantitySentences(q: QuantityAgreement, words: JudgementWords): string[] {
  const { speech, v, text, t } = wordsOf(q, words);
  const { limits_within: within, limits_between: between } = q;
  return [
    ...Object.values(mainSentences(q, words)),
    t('errors', {
      mean: v(q.mean_absolute_error),
      square: v(q.root_mean_square_error),
      typical: v(q.typical_error),
    }),
    ...(within && between
      ? [
          t('own_limits', {
            within_low: v(within.lower),
            within_high: v(within.upper),
            low: v(between.lower),
            high: v(between.upper),
          }),
        ]
      : []),
    ...[q.icc, q.icc_consistency].flatMap((icc) =>
      icc
        ? [t('correlation', { form: icc.form, icc: text(icc, RATIO_DECIMALS), model: speech.because(icc.model) })]
        : [],
    ),
    ...(q.proportional_slope ? [t('grows', { slope: text(q.proportional_slope, RATIO_DECIMALS) })] : []),
    ...(q.coverage === null ? [] : [t('coverage', { percent: speech.number(100 * q.coverage, 1) })]),
  ];
}

/** What a study leaves open, and where each of its intervals comes from. */
export function studyNotes(study: AgreementStudy, words: JudgementWords): string[] {
  const t = words.coach.agreement;
  return [
    ...study.notes.map((note) => speechOf(words.language).because(note)),
    t('source_limits'),
    t('source_repeated'),
    t('source_correlation'),
    t('source_errors'),
    t('source_coverage'),
  ];
}

/** The study as lines for a terminal. */
export function studyTable(study: AgreementStudy, words: JudgementWords): string {
  const total = (name: 'reference_contacts' | 'matched' | 'missed' | 'extra'): number =>
    study.recordings.reduce((sum, row) => sum + row[name], 0);
  return [
    words.coach.agreement('found_in', {
      recordings: study.recordings.length,
      athletes: new Set(study.recordings.map((row) => row.athlete)).size,
      matched: total('matched'),
      of: total('reference_contacts'),
      missed: total('missed'),
      extra: total('extra'),
    }),
    '',
    ...study.quantities.flatMap((q) => [
      `${words.label(q.quantity)}, ${q.unit}:`,
      ...quantitySentences(q, words).map((sentence) => `  ${sentence}`),
      '',
    ]),
    ...studyNotes(study, words),
    '',
  ].join('\n');
}
