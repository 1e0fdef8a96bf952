import { expect, test } from 'vitest';
import { analyse } from '../../../dsp/analyse.ts';
import { timedRepetition } from '../../../dsp/strides/timed-repetition.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';

test('the times of a course belong to the run with the shortest contacts', () => {
  const run = (contact_s: number) =>
    Array.from({ length: 8 }, (_, i) => ({ touchdown_s: i * 0.25, toe_off_s: i * 0.25 + contact_s }));
  expect(timedRepetition([run(0.2), run(0.11), run(0.18)])).toBe(1);
  expect(timedRepetition([run(0.2)])).toBe(0);
  expect(timedRepetition([])).toBe(-1);
});

test('a jog after the sprint in the same recording gets no speed from the sprint’s time', () => {
  const { sensors, truth } = generateRepetition({
    seed: 5,
    repetitions: [
      { effort: 1, distance_m: 30 },
      { effort: 0.5, distance_m: 30 },
    ],
    mountings: ['shank'],
    sensor: { rate_hz: 400 },
    internal_rate_hz: 2000,
  });
  const { repetitions } = analyse({
    sensors: (['left', 'right'] as const).map((side) => ({
      side,
      mounting: 'shank',
      samples: sensors.shank[side],
      clock_offset_s: 0,
      clock_drift: 0,
      clock_offset_u_s: 0,
    })),
    course: { ...UNKNOWN_COURSE, distance_m: 30, time_s: truth.repetitions[0].time_s },
    conditions: UNKNOWN_CONDITIONS,
  });
  expect(repetitions.length).toBe(2);
  expect(repetitions[0].speed_curve).not.toBeNull();
  expect(repetitions[1].speed_curve).toBeNull();
  expect(repetitions[1].contacts.every((contact) => contact.step_length_m === null)).toBe(true);
});
