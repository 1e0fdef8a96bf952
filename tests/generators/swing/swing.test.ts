/** Sprints of both generators are as hard in swing and at landing as a real one, so that accelerometers alone meet a hard case. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../second/recording.ts';
import { firstGeneratorPeaks, type Peaks, secondGeneratorPeaks } from './accelerations.ts';

/**
 * Peaks of the recorded sprint at 9.5 m/s (Dorn, Schache and Pandy 2012, J Exp Biol 215:1944; one person, four contacts), g.
 * The sharp part of a landing is missing from markers: what is simulated may be harder there.
 */
const RECORDED = {
  foot: { swing: 18.2, late_swing: 22.3, landing: 23.6 },
  shank: { swing: 16.8, late_swing: 15.3, landing: 20.4 },
};
const RUNNERS = [1, 2, 3, 4, 5];

const second = (i: number): Plan => ({
  name: `swing ${i}`,
  athlete: `sprinter ${i}`,
  level: 'elite',
  mount: 'foot',
  chip: {},
  runs: [{ start: 'standing', effort: 0.85, distance: 42, slowing: 2.5 }],
});
const MADE: [string, () => Record<'foot' | 'shank', Peaks>[]][] = [
  ['first', () => RUNNERS.map((i) => firstGeneratorPeaks(700 + i, 9.5))],
  ['second', () => RUNNERS.map((i) => secondGeneratorPeaks(second(i)))],
];

describe.each(MADE)('sprints at 9.5 m/s of the %s generator', (_, make) => {
  let made: Record<'foot' | 'shank', Peaks>[];
  beforeAll(() => {
    made = make();
  });

  it.each(['foot', 'shank'] as const)(
    'swing within 40 %% of the recorded peaks, %s; late swing at least 45 %% of the landing',
    (segment) => {
      const mean = (key: keyof Peaks) => made.reduce((sum, runner) => sum + runner[segment][key], 0) / made.length;
      for (const key of ['swing', 'late_swing'] as const) {
        expect(mean(key) / RECORDED[segment][key], key).toBeGreaterThan(0.6);
        expect(mean(key) / RECORDED[segment][key], key).toBeLessThan(1.4);
      }
      expect(mean('landing') / RECORDED[segment].landing).toBeGreaterThan(0.8);
      expect(mean('landing') / RECORDED[segment].landing).toBeLessThan(2.2);
      // Recorded 0.94 (foot) and 0.75 (shank), without the sharp part.
      expect(mean('late_swing') / mean('landing')).toBeGreaterThan(0.45);
    },
  );
});
