/**
 * Where the features lie about toe-off at 50 N in real running and sprinting over force plates: five people, rates about the
 * mediolateral axis, zero-phase low-pass of 60 Hz where the markers allow (../README.md names the recordings). What each
 * person gave stands in `people`; a population's mean has to lie within `mean`, which is what they span, widened by the
 * scatter within them. Milliseconds after toe-off (negative: before).
 */
import type { ToeOffFeatures } from './features.ts';

export type Feature = Exclude<keyof ToeOffFeatures, 'humps' | 'contact_ms'>;
type Range = readonly [number, number];

export interface Published {
  title: string;
  /** m/s; null for the first two contacts of a start. */
  speed_mps: number | null;
  people: Record<Feature, string>;
  mean: Record<Feature, Range>;
}

/** At toe-off the foot's rate has fallen to this part of its peak. */
const FALLEN: Range = [0.75, 0.9];
/** The lean almost stops: within 1 rad/s and the scatter between people. */
const STOPPED: Range = [-1.8, 1.8];

export const PUBLISHED: Published[] = [
  {
    title: 'first two steps',
    speed_mps: null,
    people: {
      foot_peak_ms: '-6.5, -1.3',
      foot_ratio: '0.69, 0.97',
      lean_slowest_ms: '-32, -44',
      lean_slowest_radps: '',
      fold_begins_ms: '+0.6, -3.9',
      fold_steepest_ms: '+13, +15',
    },
    mean: {
      foot_peak_ms: [-14, 0],
      foot_ratio: [0.69, 0.97],
      lean_slowest_ms: [-46, -22],
      lean_slowest_radps: [-2.5, 1.8],
      fold_begins_ms: [-7, 2],
      fold_steepest_ms: [10, 19],
    },
  },
  {
    title: '4.5 m/s',
    speed_mps: 4.5,
    people: {
      foot_peak_ms: '-9.4, -8.6, -23 +- 3',
      foot_ratio: '0.84, 0.80, 0.80',
      lean_slowest_ms: '-3.4, -10, -21',
      lean_slowest_radps: '-0.7',
      fold_begins_ms: '+0.7, +1.0, -4 +- 9',
      fold_steepest_ms: '+12.6, +8.9, +17',
    },
    mean: {
      foot_peak_ms: [-24, -7],
      foot_ratio: FALLEN,
      lean_slowest_ms: [-22, -3],
      lean_slowest_radps: STOPPED,
      fold_begins_ms: [-7, 2],
      fold_steepest_ms: [8, 18],
    },
  },
  {
    title: '6.3 m/s',
    speed_mps: 6.3,
    people: {
      foot_peak_ms: '-20 +- 6',
      foot_ratio: '0.77',
      lean_slowest_ms: '-13',
      lean_slowest_radps: '-1.3',
      fold_begins_ms: '-5 +- 8',
      fold_steepest_ms: '+7',
    },
    mean: {
      foot_peak_ms: [-26, -12],
      foot_ratio: FALLEN,
      lean_slowest_ms: [-19, -7],
      lean_slowest_radps: STOPPED,
      fold_begins_ms: [-7, 1],
      fold_steepest_ms: [3, 12],
    },
  },
  {
    title: '8.5 m/s',
    speed_mps: 8.5,
    people: {
      foot_peak_ms: '-12 +- 6',
      foot_ratio: '0.88',
      lean_slowest_ms: '-7',
      lean_slowest_radps: '+1.1',
      fold_begins_ms: '-3 +- 6',
      fold_steepest_ms: '+4',
    },
    mean: {
      foot_peak_ms: [-18, -7],
      foot_ratio: FALLEN,
      lean_slowest_ms: [-13, -5],
      lean_slowest_radps: STOPPED,
      fold_begins_ms: [-7, 1],
      fold_steepest_ms: [0, 8],
    },
  },
  {
    title: '9.5 m/s',
    speed_mps: 9.5,
    people: {
      foot_peak_ms: '-7.5 +- 0.5, -11.5',
      foot_ratio: '0.81, 0.75',
      lean_slowest_ms: '-10.1 +- 0.9, -12',
      lean_slowest_radps: '-0.6, +5',
      fold_begins_ms: '-4.3 +- 1.1, -5.9',
      fold_steepest_ms: '+3.5 +- 0.9, -1.5',
    },
    mean: {
      foot_peak_ms: [-12.5, -6.5],
      foot_ratio: FALLEN,
      lean_slowest_ms: [-13, -8.5],
      lean_slowest_radps: STOPPED,
      fold_begins_ms: [-7, -2.5],
      fold_steepest_ms: [-2, 5.5],
    },
  },
];

/** Low-passing moves the features: at 9.5 m/s, ms after toe-off by cut-off (Hz). */
export const BY_CUTOFF = {
  hz: [15, 20, 35, 60],
  foot_peak_ms: [-13.1, -11.8, -9, -7.5],
  fold_begins_ms: [-7.2, -6.2, -4.9, -4.3],
} as const;

/** In about one runner in six at 2.5 to 4.5 m/s two humps of the foot's rate stand side by side: height, dip at most. */
export const TWO_HUMPS = { ratio: [0.91, 1.06], dip: 0.07 } as const;

/** Features whose mean leaves the published range, in words. */
export function outside(published: Published, mean: Record<Feature, number>): string[] {
  return (Object.keys(published.mean) as Feature[]).flatMap((feature) => {
    const [low, high] = published.mean[feature];
    const value = mean[feature];
    return value >= low && value <= high
      ? []
      : [`${published.title}: ${feature} ${value.toFixed(2)} is not within ${low} to ${high}`];
  });
}
