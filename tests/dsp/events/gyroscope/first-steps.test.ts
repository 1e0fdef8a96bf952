/** First steps of a sprint: long contacts in short strides, and knees that fold in two. Truth: the generator's. */
import { describe, expect, it } from 'vitest';
import { sprintCases } from '../../../outside-checks/validation/simulated-cases.ts';
import { judgeCase } from '../../../outside-checks/validation/judge-case.ts';

const WIDE = { acc_range_g: 200, gyr_range_dps: 4000 };

describe('first steps on a shank', () => {
  const [test] = [...sprintCases([105], { rate_hz: 500, ...WIDE })].filter(({ mounting }) => mounting === 'shank');
  const { analysis, result } = judgeCase(test);
  const contacts = analysis.repetitions[0].contacts;

  it('are all found, touchdown within 5 ms', () => {
    expect(result.missed).toBe(0);
    for (const truth of test.reference.slice(0, 6)) {
      const found = contacts.find(({ touchdown_s }) => Math.abs(touchdown_s - truth.touchdown_s) < 0.005);
      expect(found?.side).toBe(truth.side);
    }
  });

  it('say how little is known of a toe-off within a knee that folds in two: the errors lie within three of what is stated', () => {
    const first = contacts.slice(0, 5);
    first.forEach((contact, i) => {
      const { touchdown_s, toe_off_s } = test.reference[i];
      const error = Math.abs(contact.contact_time_ms! - 1000 * (toe_off_s - touchdown_s));
      expect(contact.contact_time_ms_u).toBeGreaterThan(15);
      expect(error).toBeLessThan(3 * contact.contact_time_ms_u!);
    });
  });
});
