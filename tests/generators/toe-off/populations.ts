/** Runners of both generators at one speed: one median of each feature a runner. */
import type { GenerateOptions } from '../../../seeds/generate-repetition.ts';
import type { Plan } from '../second/recording.ts';
import type { ToeOffFeatures } from './features.ts';
import { firstGeneratorFeatures } from './first-generator.ts';
import type { Feature } from './published.ts';
import { TWO_HUMPS } from './published.ts';
import { secondGeneratorFeatures } from './second-generator.ts';

const FEATURES: Feature[] = [
  'foot_peak_ms',
  'foot_ratio',
  'lean_slowest_ms',
  'lean_slowest_radps',
  'fold_begins_ms',
  'fold_steepest_ms',
];

export interface RunnerAtSpeed extends Record<Feature, number> {
  two_humps: boolean;
}

const median = (values: number[]) => [...values].sort((a, b) => a - b)[values.length >> 1];

function ofRunner(contacts: ToeOffFeatures[]): RunnerAtSpeed {
  const medians = FEATURES.map((feature) => [feature, median(contacts.map((contact) => contact[feature]))]);
  const humps = contacts.flatMap(({ humps }) => humps ?? []);
  const [low, high] = TWO_HUMPS.ratio;
  const ratio = median(humps.map((hump) => hump.ratio));
  const two = humps.length > contacts.length / 2 && ratio >= low && ratio <= high;
  return {
    ...(Object.fromEntries(medians) as Record<Feature, number>),
    two_humps: two && median(humps.map(({ dip }) => dip)) <= TWO_HUMPS.dip,
  };
}

/** Runners of one generator; `speed_mps` null: the first two contacts of full sprints from standing. */
export type Population = (speed_mps: number | null, runners: number, cutoff_hz?: number) => RunnerAtSpeed[];

const range = (count: number) => Array.from({ length: count }, (_, i) => i);

export const firstGenerator: Population = (speed_mps, runners, cutoff_hz = 60) =>
  range(runners).map((i) => {
    const run: Partial<GenerateOptions> =
      speed_mps === null
        ? { repetitions: [{ distance_m: 8 }], stand_before_s: 0.6, walk_steps: 1, stand_after_s: 0.3 }
        : { steady: { speed_mps, duration_s: 2 } };
    const contacts = firstGeneratorFeatures({ seed: 5000 + 97 * i, internal_rate_hz: 2000, ...run }, cutoff_hz);
    return ofRunner(speed_mps === null ? contacts.slice(0, 2) : contacts);
  });

export const secondGenerator: Population = (speed_mps, runners, cutoff_hz = 60) =>
  range(runners).map((i) => {
    const level = speed_mps && speed_mps > 9 ? 'elite' : speed_mps && speed_mps > 8 ? 'club' : 'youth';
    // Full speeds by level: 10.8 to 11.8, 8.8 to 10.3, 7.2 to 8.6 m/s.
    const effort = speed_mps === null ? 1 : speed_mps / { elite: 11.3, club: 9.5, youth: 7.9 }[level];
    const plan: Plan = {
      name: `toe-off ${i}`,
      athlete: `runner ${i}`,
      level,
      mount: 'foot',
      chip: {},
      runs: [{ start: 'standing', effort, distance: speed_mps === null ? 8 : 4.5 * speed_mps, slowing: 2.5 }],
    };
    const contacts = secondGeneratorFeatures(plan, cutoff_hz);
    return ofRunner(
      speed_mps === null
        ? contacts.filter(({ index }) => index <= 2)
        : contacts.filter(({ phase }) => phase === 'maximum'),
    );
  });

export const meanAndSd = (values: number[]): { mean: number; sd: number } => {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1)) };
};

export function meansOf(runners: RunnerAtSpeed[]): Record<Feature, number> {
  const means = FEATURES.map((feature) => [feature, meanAndSd(runners.map((runner) => runner[feature])).mean]);
  return Object.fromEntries(means) as Record<Feature, number>;
}
