import type { Mounting } from '../../shared/words.ts';
import type { Vector3 } from '../numeric/rotation.ts';
import { mean } from '../numeric/statistics.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import { type StrideFigure, strideFigure } from './worn-segment.ts';

type SideSettings = AnalysisSettings['mounting']['side'];

/** Directions of one contact, in the sensor's axes at its touchdown. */
export interface ContactDirections {
  up: Vector3;
  forward: Vector3;
}

/** What the quality of a recording needs to know of the place that its sensor was worn at. */
export interface MountingJudge {
  /** How far a foot lying flat turns here: the value expected, the value doubted, and the limit of the doubt. */
  segment(
    turns_less_than: (limit: number) => boolean,
    turns_more_than: (limit: number) => boolean,
    limits: AnalysisSettings['mounting']['segment'],
  ): { expected: boolean; doubtful: boolean; limit: number };
  /** The two turns of a contact that tell its side, each as a share of the peak swing rate, positive for a right leg. */
  turns(
    rates: (about: Vector3, part: number[]) => number,
    directions: ContactDirections,
    side: SideSettings,
  ): [number, number];
  /** What is usual of these two. */
  usual(usual: SideSettings['usual']): [number, number];
  /** The figure that decides, and the second one, from both turns of every stride as shares of what is usual. */
  outward(first: number[], second: number[]): { push: StrideFigure; second: number };
  /** Whether it measures the length of a stride by itself. */
  measures_stride_length: boolean;
}

/** One object a mounting: another one does not compile here until all of it is said. */
export const MOUNTING_JUDGES: Record<Mounting, MountingJudge> = {
  foot: {
    segment: (less, more, { foot_below, shank_above }) => ({
      expected: less(foot_below),
      doubtful: more(shank_above),
      limit: shank_above,
    }),
    // A foot rolls outward in the push and inward after landing.
    turns: (rates, { forward }, { foot }) => [rates(forward, foot.push), -rates(forward, foot.landing)],
    usual: ({ foot_push, foot_landing }) => [foot_push, foot_landing],
    outward: (first, second) => ({ push: strideFigure(first), second: mean(second) }),
    measures_stride_length: true,
  },
  shank: {
    segment: (less, more, { foot_below, shank_above }) => ({
      expected: more(shank_above),
      doubtful: less(foot_below),
      limit: foot_below,
    }),
    // A shank tilts and turns outward before toe-off.
    turns: (rates, { up, forward }, { shank }) => [-rates(forward, shank.roll), -rates(up, shank.turn)],
    usual: ({ shank_roll, shank_turn }) => [shank_roll, shank_turn],
    outward: (first, second) => ({
      push: strideFigure(first.map((value, k) => (value + second[k]) / 2)),
      second: mean(second),
    }),
    measures_stride_length: false,
  },
};
