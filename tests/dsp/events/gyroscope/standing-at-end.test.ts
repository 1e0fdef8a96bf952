import { describe, expect, it } from 'vitest';
import { analyse } from '../../../../dsp/analyse.ts';
import { generateRepetition } from '../../../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../../shared/analysis.ts';
import type { SampleBlock } from '../../../../shared/sample-block.ts';
import type { Mounting } from '../../../../shared/words.ts';

/** Seeds in which a foot that came to rest was taken for one more contact, where the recording ended soon after. */
const CASES: [Mounting, number][] = [
  ['foot', 3],
  ['foot', 12],
  ['foot', 31],
  ['shank', 14],
];

function until(samples: SampleBlock, end_s: number): SampleBlock {
  const n = samples.time_s.filter((time) => time <= end_s).length;
  const cut = ({ x, y, z }: SampleBlock['acc_mps2']) => ({ x: x.slice(0, n), y: y.slice(0, n), z: z.slice(0, n) });
  const { time_s, acc_mps2, gyr_radps } = samples;
  return { ...samples, time_s: time_s.slice(0, n), acc_mps2: cut(acc_mps2), gyr_radps: gyr_radps && cut(gyr_radps) };
}

describe('a recording that ends while the athlete comes to rest', () => {
  it.each(CASES)('has the contacts of the whole one, wherever it ends (%s, seed %d)', (mounting, seed) => {
    const made = generateRepetition({
      seed,
      repetitions: [
        { distance_m: 20 + 5 * (seed % 4), effort: 0.8 + 0.05 * (seed % 4), run_out_s: 0.3 + (seed % 3) * 0.5 },
      ],
      stand_before_s: 1.5,
      walk_steps: seed % 3,
      stand_after_s: 1.5,
      mountings: [mounting],
      internal_rate_hz: 2000,
      sensor: { rate_hz: 500, acc_range_g: 32, gyr_range_dps: 4000 },
    });
    const last_s = made.truth.contacts.at(-1)!.toe_off_s!;
    const sidesFound = (end_s: number) => {
      const sensors = (['left', 'right'] as const).map((side) => {
        const samples = until(made.sensors[mounting][side], end_s);
        return { side, mounting, samples, clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 };
      });
      const { repetitions } = analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
      return repetitions.map(({ contacts }) => contacts.map(({ side }) => side));
    };
    const whole = sidesFound(last_s + 2.3);
    // Never more than were run; the last one may be too long to count as running.
    expect(made.truth.contacts.length - whole[0].length).toBeOneOf([0, 1]);
    for (const tail_s of [0.6, 0.8, 1, 1.2]) expect(sidesFound(last_s + tail_s)).toEqual(whole);
  });
});
