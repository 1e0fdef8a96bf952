import { describe, expect, test } from 'vitest';
import { athleteBaseline, type BaselineValue, judgeRepetition } from '../../../dsp/athlete/index.ts';
import { normal } from '../../helpers/random.ts';

interface Athlete {
  sessions: number;
  repetitions: number;
  /** SD between sessions as a share of the typical error (the SD of one repetition over sessions). */
  between: number;
}

const [NORMAL, TYPICAL_ERROR] = [120, 5];

/** Shares of false flags among unchanged repetitions, and of athletes whose change is seen within three repetitions. */
function simulate(athlete: Athlete, change_in_typical_errors: number, seed: number, athletes = 1000) {
  const z = normal(seed);
  const within = Math.sqrt(1 - athlete.between ** 2);
  const day = (count: number, change: number): number[] => {
    const level = athlete.between * z();
    return Array.from({ length: count }, () => NORMAL + TYPICAL_ERROR * (level + within * z() + change));
  };
  let [flags, seen] = [0, 0];
  for (let a = 0; a < athletes; a++) {
    const history: BaselineValue[] = Array.from({ length: athlete.sessions }, (_, s) =>
      day(athlete.repetitions, 0).map((value) => ({ value, session: s, day: 3 * s })),
    ).flat();
    const baseline = athleteBaseline(history, { quantity: 'contact_time_ms', day: 3 * athlete.sessions })!;
    const unchanged = day(5, 0);
    for (let k = 1; k <= 5; k++) if (judgeRepetition(baseline, unchanged.slice(0, k)).beyond) flags++;
    const changed = day(3, change_in_typical_errors);
    if ([1, 2, 3].some((k) => judgeRepetition(baseline, changed.slice(0, k)).beyond === 'above')) seen++;
  }
  return { false_share: flags / (5 * athletes), seen_share: seen / athletes };
}

describe('the flag on a repetition', () => {
  test.each<Athlete>([
    { sessions: 2, repetitions: 3, between: 0 },
    { sessions: 3, repetitions: 4, between: 0.3 },
    { sessions: 5, repetitions: 4, between: 0 },
    { sessions: 6, repetitions: 4, between: 0.3 },
    { sessions: 8, repetitions: 5, between: 0.3 },
  ])(
    'comes in at most 5 % of unchanged repetitions: $sessions sessions of $repetitions, $between between',
    (athlete) => {
      expect(simulate(athlete, 0, 1).false_share).toBeLessThan(0.05);
    },
  );

  test.each<Athlete>([
    { sessions: 6, repetitions: 4, between: 0 },
    { sessions: 8, repetitions: 5, between: 0 },
    { sessions: 8, repetitions: 5, between: 0.3 },
  ])(
    'comes within three repetitions in 80 % of changes of two typical errors: $sessions sessions of $repetitions, $between between',
    (athlete) => {
      expect(simulate(athlete, 2, 2).seen_share).toBeGreaterThan(0.8);
    },
  );

  test('grows with what is known: a short baseline sees the same change less often', () => {
    const few = simulate({ sessions: 2, repetitions: 3, between: 0 }, 2, 4);
    const many = simulate({ sessions: 8, repetitions: 5, between: 0 }, 2, 4);
    expect(few.seen_share).toBeLessThan(many.seen_share - 0.2);
  });

  test('a variation between days of half the typical error costs false flags, and stays near 5 %', () => {
    const result = simulate({ sessions: 6, repetitions: 4, between: 0.5 }, 0, 3);
    expect(result.false_share).toBeLessThan(0.07);
  });
});
