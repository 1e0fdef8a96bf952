/**
 * Generated runs of which single stances are damped or lost: is every contact that is then not found told, where it was, and
 * does no step reach over it? And is nothing told of runs that are complete?
 */
import { analyse } from '../../../dsp/analyse.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { makeRandom } from '../../../seeds/random.ts';
import { type Contact, type Course, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import type { Mounting, Side } from '../../../shared/words.ts';
import { dampedStretch, losingStretch } from '../../helpers/hide-contact.ts';

interface TrueContact {
  side: Side;
  touchdown_s: number;
  toe_off_s: number;
}

export interface Run {
  sensors: SensorRecording[];
  truth: TrueContact[];
}

/** A sprint of an athlete made from the seed, at a part of full speed that the seed chooses. */
export function runOf(seed: number, mounting: Mounting): Run {
  const { sensors, truth } = generateRepetition({
    seed,
    repetitions: [{ effort: 0.65 + 0.07 * (seed % 6), distance_m: 20 + 8 * (seed % 5), run_out_s: 0.15 }],
    mountings: [mounting],
    sensor: { rate_hz: 400 },
    internal_rate_hz: 1000,
  });
  const recordings = (['left', 'right'] as const).map((side) => ({
    side,
    mounting,
    samples: sensors[mounting][side],
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
  }));
  return { sensors: recordings, truth: truth.contacts };
}

export type Hiding = 'none' | 'damped' | 'lost' | 'first';

/** Hides one to three contacts of a run, or its first. */
export function hide(run: Run, seed: number, hiding: Hiding): Run {
  if (hiding === 'none') return run;
  const random = makeRandom(1000 + seed);
  const count = 1 + Math.floor(random.uniform(0, 3));
  const usable = run.truth.slice(3, 15);
  const hidden =
    hiding === 'first'
      ? [run.truth[0]]
      : Array.from({ length: count }, () => usable[Math.floor(random.uniform(0, usable.length))]);
  const change = hiding === 'lost' ? losingStretch : dampedStretch;
  const sensors = run.sensors.map((sensor) => {
    const own = hidden.filter(({ side }) => side === sensor.side);
    const samples = own.reduce(
      (block, { touchdown_s, toe_off_s }) => change(block, touchdown_s - 0.07, toe_off_s + 0.09),
      sensor.samples,
    );
    return { ...sensor, samples };
  });
  return { sensors, truth: run.truth };
}

export interface MissedFigures {
  /** True contacts between the first and the last that were found, of which so many were not found. */
  contacts: number;
  not_found: number;
  /** Intervals in which contacts were not found, and of these those whose number was told rightly. */
  intervals: number;
  told: number;
  /** Places told where nothing was missing. */
  false_places: number;
  /** Steps given that are no single step of the truth, or off by more than a third. */
  wrong_steps: number;
  /** Runs whose first contact was not found, of which it was told; runs of which it was told falsely. */
  late_starts: number;
  late_starts_told: number;
  late_starts_false: number;
  /** Runs of which it was told falsely that they went on. */
  ends_false: number;
}

export const NO_FIGURES: MissedFigures = {
  contacts: 0,
  not_found: 0,
  intervals: 0,
  told: 0,
  false_places: 0,
  wrong_steps: 0,
  late_starts: 0,
  late_starts_told: 0,
  late_starts_false: 0,
  ends_false: 0,
};

/** What the analysis tells of a run against its truth. */
export function judgeMissed({ sensors, truth }: Run, course: Course = UNKNOWN_COURSE): MissedFigures {
  const figures = { ...NO_FIGURES };
  const { repetitions } = analyse({ sensors, course, conditions: UNKNOWN_CONDITIONS });
  for (const [k, { contacts: rows, summary }] of repetitions.entries()) {
    const told = (after_step: number): number =>
      summary.missing?.find((place) => place.after_step === after_step)?.contacts ?? 0;
    const at = rows.map((row) => indexOf(row, truth));
    rows.slice(0, -1).forEach((row, i) => {
      if (at[i] < 0 || at[i + 1] < 0) return;
      const between = at[i + 1] - at[i] - 1;
      figures.contacts += 1 + between;
      figures.not_found += between;
      if (between > 0) figures.intervals++;
      if (between > 0 && told(i + 1) === between) figures.told++;
      if (between === 0 && told(i + 1) > 0) figures.false_places++;
      const step_s = truth[at[i] + 1].touchdown_s - truth[at[i]].touchdown_s;
      if (row.step_time_ms !== null && Math.abs(row.step_time_ms / 1000 / step_s - 1) > 1 / 3) figures.wrong_steps++;
    });
    if (k > 0) continue;
    if (at[0] === 1) figures.late_starts++;
    if (at[0] === 1 && told(0) === 1) figures.late_starts_told++;
    if (at[0] === 0 && told(0) > 0) figures.late_starts_false++;
    if (told(rows.length) > 0 && at[rows.length - 1] >= truth.length - 2) figures.ends_false++;
  }
  return figures;
}

function indexOf(row: Contact, truth: readonly TrueContact[]): number {
  return truth.findIndex(
    ({ side, touchdown_s }) => side === row.side && Math.abs(touchdown_s - row.touchdown_s) < 0.09,
  );
}

export function added(a: MissedFigures, b: MissedFigures): MissedFigures {
  const names = Object.keys(a) as (keyof MissedFigures)[];
  return Object.fromEntries(names.map((name) => [name, a[name] + b[name]])) as unknown as MissedFigures;
}
