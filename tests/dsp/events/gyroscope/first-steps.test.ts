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

  it('have no contact time where the knee folds in two, and say why; step times stay', () => {
    for (const contact of contacts.slice(0, 5)) {
      expect(contact.contact_time_ms).toBeNull();
      expect(contact.reasons.contact_time_ms).toMatchObject({ because: 'toe_off_rough' });
      expect(contact.step_time_ms).toBeGreaterThan(150);
    }
    expect(contacts[12].contact_time_ms).toBeGreaterThan(60);
  });
});
