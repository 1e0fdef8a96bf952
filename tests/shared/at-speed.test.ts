import { describe, expect, it } from 'vitest';
import { summariseRepetition } from '../../dsp/repetitions/summary.ts';
import { meansOfRepetition } from '../../shared/at-speed.ts';
import type { Contact } from '../../shared/analysis.ts';
import { contactRows } from '../helpers/contact-rows.ts';
import { figuresOf } from '../../api/store/analysis-rows.ts';
import { repetitionValues } from '../../api/store/repetition-values.ts';

const INSTANTS = Array.from({ length: 10 }, (_, i) => ({
  side: i % 2 ? ('right' as const) : ('left' as const),
  touchdown_s: 0.25 * i,
  toe_off_s: 0.25 * i + 0.11,
}));

/** Ten contacts, those of the maximum-speed phase 100 ms long, the others 120. */
function repetition(at_speed: number): Contact[] {
  return contactRows(INSTANTS).map((row, i) => ({
    ...row,
    phase: i < at_speed ? 'maximum speed' : 'acceleration',
    contact_time_ms: i < at_speed ? 100 : 120,
    contact_time_ms_u: 3,
  }));
}

describe('what the means of a repetition are over', () => {
  const extent = { distance_m: null, time_s: null, steady: false };

  it.each([
    [0, 'all contacts'],
    [1, 'all contacts'],
    [2, 'at speed'],
    [10, 'at speed'],
  ] as const)('with %i contacts at speed: %s, wherever it is asked', (n, over) => {
    const contacts = repetition(n);
    const summary = summariseRepetition(contacts, extent);
    const means = meansOfRepetition(summary);
    const wanted = over === 'at speed' ? 100 : (n * 100 + (10 - n) * 120) / 10;
    expect(means.over).toBe(over);
    expect(means.means.contact_time_ms!.mean).toBeCloseTo(wanted, 9);
    expect(figuresOf(summary)).toMatchObject({
      figures_over: over,
      contact_time_ms: means.means.contact_time_ms!.mean,
    });
    const value = repetitionValues({ summary, contacts }).find(({ quantity }) => quantity === 'contact_time_ms')!;
    expect(value.value).toBe(means.means.contact_time_ms!.mean);
    // Left and right are over the same stretch: together they hold its contacts.
    expect(summary.left.contact_time_ms!.n + summary.right.contact_time_ms!.n).toBe(means.means.contact_time_ms!.n);
    expect(value.left_n! + value.right_n!).toBe(value.n);
  });
});
