import { expect, test } from 'vitest';
import { verdictSentence } from '../../../api/coach/words/verdict-sentence.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';

test('a verdict on left against right says which side is longer, so that it never reads like the contact time itself', () => {
  const judgement = {
    quantity: 'contact_time_side_difference_ms',
    value: -6,
    kind: 'as usual',
    normal: { basis: 'like repetitions', provisional: false, n: 20 },
    today: { change: 0 },
    change: 0,
    beyond_in_a_row: 0,
  } as unknown as Omit<Judgement, 'sentence'>;
  expect(verdictSentence(judgement)).toBe('Contact as usual: 6 ms longer on the right.');
});
