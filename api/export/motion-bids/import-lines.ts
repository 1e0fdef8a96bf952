import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import type { Course } from '../../../shared/analysis.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { Mounting } from '../../../shared/words.ts';
import type { ImportLine } from './import-line.ts';
import { appliesTo } from './inherited.ts';
import { layoutOf, type MotionFacts } from './motion-layout.ts';
import { parseStem } from './names.ts';
import { type RecordingSidecar, readJson, readTsv, unreadable } from './read-motion-bids.ts';
import { dayOf, SessionDays } from './session-days.ts';
import { type ChosenPoint, choosePoints, inertialPoints, type PointsTold } from './tracked-points.ts';

export interface MotionBidsOptions {
  /** Points to be read, with their sides, where their names do not tell or others are wanted. */
  points?: PointsTold;
  /** Where the sensors sit, where the points' names do not tell. */
  mounting?: Mounting;
  /** Told of every file and point that is left out, and why. */
  onLeftOut?: (why: FaultError) => void;
}

/** A motion file that can be measured from. */
interface Usable extends MotionFacts {
  points: ChosenPoint[];
  all: string[];
}

/** Folders of a data set that hold no raw recordings of it. */
const NOT_RAW = /^(derivatives|sourcedata|code|stimuli)([\\/]|$)/;

/**
 * Turns a Motion-BIDS data set into imports: one a run, with left and right sensors together. Sides and mounting come from our
 * own sidecar, from what was told, or from the tracked points' names; courses from our derivatives where there are any. Session and run
 * may be missing; one file may hold both feet; systems without an accelerometer are left out. A day that is not told stays untold.
 * @throws FaultError DATASET_UNREADABLE
 */
export function motionBidsLines(folder: string, options: MotionBidsOptions = {}): ImportLine[] {
  if (!existsSync(join(folder, 'dataset_description.json'))) throw unreadable('no_description', folder);
  const runs = new Map<string, string[]>();
  for (const name of (readdirSync(folder, { recursive: true }) as string[]).sort()) {
    const parsed = NOT_RAW.test(name) ? null : parseStem(basename(name));
    if (!parsed) continue;
    const key = `${parsed.sub} ${parsed.ses} ${parsed.task} ${parsed.run}`;
    runs.set(key, [...(runs.get(key) ?? []), join(folder, name)]);
  }
  if (runs.size === 0) throw unreadable('no_motion', folder);
  const days = new SessionDays();
  const lines = [...runs.values()].flatMap((files) => {
    const usable = usableFiles(folder, files, options);
    return usable.length > 0 ? [lineOf(folder, usable, days, options)] : [];
  });
  if (lines.length === 0) throw unreadable('none_inertial', folder);
  return lines;
}

/** The files of one run that are read: one that holds both feet, or one a side, and all from the same place. */
function usableFiles(folder: string, files: string[], { points = new Map(), onLeftOut }: MotionBidsOptions): Usable[] {
  const inertial = files.flatMap((file): Usable[] => {
    const channels = readTsv(appliesTo(folder, file, '_channels.tsv'));
    const all = inertialPoints(channels);
    if (all.length === 0) {
      onLeftOut?.(unreadable('not_inertial', file));
      return [];
    }
    // Our own exports hold one point a file.
    const own = all.length === 1 ? ownSidecar(folder, file) : {};
    const chosen = choosePoints(file, all, points).map((point) => ({
      ...point,
      side: own.Side ?? point.side,
      mounting: own.Mounting ?? point.mounting,
    }));
    return [{ file, channels, rate_hz: rateOf(folder, file, channels), points: chosen, all }];
  });
  const kept: Usable[] = [];
  const places = [...inertial].sort((a, b) => rank(a, points) - rank(b, points));
  for (const one of places) {
    const sides = kept.flatMap(({ points: read }) => read.map(({ side }) => side));
    const fits =
      kept.length === 0 ||
      (rank(one, points) === rank(kept[0], points) &&
        one.points.every(({ side }) => side !== 'unknown' && !sides.includes(side) && !sides.includes('unknown')));
    if (fits) kept.push(one);
    else onLeftOut?.(unreadable('another_system', one.file));
  }
  for (const { file, all, points: read } of kept) {
    const others = all.filter((name) => read.every((point) => point.name !== name));
    if (others.length === 0) continue;
    const values = { file, read: read.map(({ name }) => name), others };
    onLeftOut?.(new FaultError(fault('TRACKED_POINTS_LEFT', values, { file })));
  }
  return kept;
}

/** Files with points that were told come first, then feet, then shanks. */
function rank({ points }: Usable, told: PointsTold): number {
  if (points.some(({ name }) => told.has(name))) return 0;
  const [{ mounting }] = points;
  return mounting === 'foot' ? 1 : mounting === 'shank' ? 2 : 3;
}

function lineOf(folder: string, usable: Usable[], days: SessionDays, { mounting }: MotionBidsOptions): ImportLine {
  const [first] = usable;
  const { sub, run, ses } = parseStem(basename(first.file))!;
  const files: ImportLine['files'] = {};
  const layouts: Record<string, string> = {};
  for (const one of usable) {
    const [{ side }] = one.points;
    const as = one.points.length === 1 && side !== 'unknown' ? side : 'file';
    files[as] = one.file;
    layouts[as === 'file' ? 'layout' : `layout_${as}`] = JSON.stringify(layoutOf(one, one.points));
  }
  return {
    label: [`sub-${sub}`, ...(ses ? [`ses-${ses}`] : []), ...(run ? [`run-${run}`] : [])].join(' '),
    files,
    athlete: `sub-${sub}`,
    date: dayOf(folder, first.file) ?? days.standIn(sub, ses),
    form: {
      mounting: mounting ?? first.points[0].mounting ?? 'foot',
      ...layouts,
      ...courseFields(courseOfRun(folder, first.file, run)),
    },
  };
}

function ownSidecar(folder: string, file: string): RecordingSidecar {
  const own = join(folder, 'derivatives', 'cinderlane', relative(folder, file)).replace(
    '_motion.tsv',
    '_desc-recording.json',
  );
  return existsSync(own) ? (readJson(own) as RecordingSidecar) : {};
}

function rateOf(folder: string, file: string, channels: Record<string, string>[]): number | null {
  const { SamplingFrequency } = readJson(appliesTo(folder, file, '_motion.json')) as { SamplingFrequency?: unknown };
  const rate = Number(SamplingFrequency ?? channels[0]?.sampling_frequency);
  return rate > 0 ? rate : null;
}

/** The course of the run's only repetition; with several, each had its own and none is taken. */
function courseOfRun(folder: string, file: string, run: string | null): Course | null {
  const derived = join(folder, 'derivatives', 'cinderlane', relative(folder, dirname(file)));
  if (!existsSync(derived)) return null;
  const found = readdirSync(derived).filter(
    (name) => name.includes(`_run-${run}_desc-repetition`) && name.endsWith('_steps.json'),
  );
  if (found.length !== 1) return null;
  return (readJson(join(derived, found[0])) as { Course?: Course }).Course ?? null;
}

function courseFields(course: Course | null): Record<string, string | undefined> {
  if (!course) return {};
  return {
    course: course.distance_m === null ? undefined : `${course.distance_m}m`,
    time: course.time_s === null ? undefined : `${course.time_s}s`,
    splits:
      course.splits.length > 0 ? course.splits.map((s) => `${s.distance_m}m=${s.split_time_s}s`).join(',') : undefined,
    belt_speed: course.belt_speed_mps === null ? undefined : `${course.belt_speed_mps}mps`,
    clock: course.clock,
    timing_method: course.timing_method ?? undefined,
    start_style: course.start_style ?? undefined,
  };
}
