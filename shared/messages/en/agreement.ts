import type { CodedReason } from '../../reason-shape.ts';
import type { PhraseRoom } from '../sentence.ts';

/** How an agreement or repeatability was computed, and what it leaves open. */
export const agreementReasons = {
  agreement_repeated: 'repeated measures (Bland and Altman 2007)',
  agreement_independent: 'independent pairs (Bland and Altman 1986)',
  agreement_clocks_unrelated:
    'The clocks were put together by the touchdowns themselves, so that no bias of touchdown can be told; that of contact time and step length can.',
  agreement_too_few: ({ quantity, pairs }: { quantity: string; pairs: number }, say) =>
    `${quantity}: ${pairs} ${say.plural(pairs, { one: 'pair', other: 'pairs' })}, too few for limits of agreement.`,
  icc_one_way_single: 'one-way random effects, single measurement',
  icc_agreement_single: 'two-way random effects, absolute agreement, single measurement',
  icc_consistency_single: 'two-way mixed effects, consistency, single measurement',
  icc_one_way_mean: 'one-way random effects, mean of k measurements',
  icc_agreement_mean: 'two-way random effects, absolute agreement, mean of k measurements',
  icc_consistency_mean: 'two-way mixed effects, consistency, mean of k measurements',
  icc_over_contacts: ({ model }: { model: CodedReason }, say) => `${say.because(model)}, over contacts`,
} as const satisfies PhraseRoom;
