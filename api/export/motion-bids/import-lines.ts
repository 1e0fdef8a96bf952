import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import { readUnit } from '../../../ingest/csv/columns/units.ts';
import type { Course } from '../../../shared/analysis.ts';
import type { FaultError } from '../../../shared/fault.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import type { Mounting } from '../../../shared/words.ts';
import type { ImportLine } from './import-line.ts';
import { parseStem } from './names.ts';
import { type RecordingSidecar, readJson, readTsv, unreadable } from './read-motion-bids.ts';

/**
 * Turns a Motion-BIDS data set into imports: one a run, with left and right sensors together. Sides and mounting come from our
 * own sidecar, or from the tracked points' names; courses from our derivatives where there are any. Session and run may be missing;
 * one file may hold both feet; systems without an accelerometer are left out.
 * @param onSkipped told of every file that is left out, and why
 * @throws FaultError DATASET_UNREADABLE
 */
export function motionBidsLines(folder: string, onSkipped: (why: FaultError) => void = () => {}): ImportLine[] {
  if (!existsSync(join(folder, 'dataset_description.json'))) {
    throw unreadable('no_description', folder);
  }
  const runs = new Map<string, string[]>();
  for (const name of (readdirSync(folder, { recursive: true }) as string[]).sort()) {
    const parsed = name.startsWith('derivatives') ? null : parseStem(basename(name));
    if (!parsed) continue;
    const key = `${parsed.sub} ${parsed.ses} ${parsed.task} ${parsed.run}`;
    runs.set(key, [...(runs.get(key) ?? []), join(folder, name)]);
  }
  if (runs.size === 0) throw unreadable('no_motion', folder);
  const lines = [...runs.values()].flatMap((files) => {
    const inertial = files.filter((file) => {
      const accelerates = channelsOf(file).some(({ type }) => type === 'ACCEL');
      if (!accelerates) onSkipped(unreadable('not_inertial', file));
      return accelerates;
    });
    return inertial.length > 0 ? [lineOf(folder, inertial)] : [];
  });
  if (lines.length === 0) throw unreadable('none_inertial', folder);
  return lines;
}

function lineOf(folder: string, files: string[]): ImportLine {
  const { sub, run, ses } = parseStem(basename(files[0]))!;
  const sidecars = files.map((file) => sidecarOf(folder, file));
  const sides = files.map((file, k) => sidecars[k].Side ?? sideByName(file));
  const named: ImportLine['files'] = {};
  files.forEach((file, k) => {
    const side = sides[k] === 'left' || sides[k] === 'right' ? sides[k] : 'file';
    named[side] = file;
  });
  return {
    label: [`sub-${sub}`, ...(ses ? [`ses-${ses}`] : []), ...(run ? [`run-${run}`] : [])].join(' '),
    files: named,
    athlete: `sub-${sub}`,
    date: dateOf(files[0]),
    form: {
      mounting: sidecars[0].Mounting ?? mountingOf(trackedPoints(files[0])[0]),
      layout: JSON.stringify(layoutOf(files[0])),
      ...courseFields(courseOfRun(folder, files[0], run)),
    },
  };
}

function sidecarOf(folder: string, file: string): RecordingSidecar {
  const own = join(folder, 'derivatives', 'cinderlane', relative(folder, file)).replace(
    '_motion.tsv',
    '_desc-recording.json',
  );
  return existsSync(own) ? (readJson(own) as RecordingSidecar) : {};
}

function channelsOf(file: string): Record<string, string>[] {
  return readTsv(file.replace('_motion.tsv', '_channels.tsv'));
}

const FOOT = /foot|shoe|toe|heel|instep/i;
const SHANK = /shank|shin|tibia|ankle|calf|lower.?leg/i;

const mountingOf = (point: string): Mounting => (SHANK.test(point) ? 'shank' : 'foot');

/**
 * Tracked points of a file that can be measured from: those on feet, else those on shanks, left before right. A file with one
 * point has that one, whatever it is called.
 * @throws FaultError DATASET_UNREADABLE, with every point, where none of several lies on a foot or shank
 */
function trackedPoints(file: string): string[] {
  const all = [
    ...new Set(channelsOf(file).flatMap((channel) => (channel.type === 'ACCEL' ? [channel.tracked_point] : []))),
  ];
  if (all.length === 1) return all;
  const [feet, shanks] = [FOOT, SHANK].map((place) => all.filter((point) => place.test(point)));
  const chosen = (feet.length > 0 ? feet : shanks).filter(
    (point, i, points) => points.findIndex((other) => sideOf(other) === sideOf(point)) === i,
  );
  if (chosen.length === 0) throw unreadable('points', file, { points: all.join(', ') });
  return chosen.sort((a, b) => sideOf(a).localeCompare(sideOf(b)));
}

function sideOf(point: string): 'left' | 'right' | 'unknown' {
  if (/left|(^|[_ -])l($|[_ -])/i.test(point)) return 'left';
  return /right|(^|[_ -])r($|[_ -])/i.test(point) ? 'right' : 'unknown';
}

function sideByName(file: string): 'left' | 'right' | 'unknown' {
  const points = trackedPoints(file);
  return points.length === 1 ? sideOf(points[0]) : 'unknown';
}

/** Day of the session from the scans file; data sets without times get the first day of the era, plainly made up. */
function dateOf(file: string): string {
  const session = dirname(dirname(file));
  const scans = readdirSync(session).find((name) => name.endsWith('_scans.tsv'));
  const time = scans ? readTsv(join(session, scans)).find((row) => file.endsWith(row.filename))?.acq_time : undefined;
  return time && time !== 'n/a' ? time.slice(0, 10) : '1970-01-01';
}

/** Columns by the channels file; there is no header row. */
function layoutOf(file: string): LayoutCorrection {
  const channels = channelsOf(file);
  const axes = (type: string, point: string) => {
    const found = ['x', 'y', 'z'].map((component) =>
      channels.findIndex(
        (c) => c.type === type && c.tracked_point === point && c.component.toLowerCase() === component,
      ),
    );
    return found.includes(-1) ? null : (found as [number, number, number]);
  };
  const triple = (type: string, point: string, kind: 'acc' | 'gyr', si: string) => {
    const columns = axes(type, point);
    if (!columns) return null;
    const written = channels[columns[0]].units ?? 'n/a';
    const unit = readUnit(written === 'n/a' ? si : written);
    if (unit?.kind !== kind) throw unreadable('unit', file, { channel: type, unit: written });
    return { columns, signs: [1, 1, 1] as [number, number, number], unit: unit.unit, to_si: unit.to_si };
  };
  const latency = channels.findIndex((channel) => channel.type === 'LATENCY');
  const motion = readJson(file.replace('.tsv', '.json')) as { SamplingFrequency: number };
  const points = trackedPoints(file);
  return {
    text: { delimiter: '\t', decimal_mark: '.', header_row: false, units_row: false, missing_values: ['n/a'] },
    time:
      latency >= 0
        ? { kind: 'number', columns: [latency], seconds_per_unit: readUnit(channels[latency].units ?? 's')?.to_si || 1 }
        : { kind: 'rows', columns: [], rate_hz: motion.SamplingFrequency },
    sensors: points.map((point) => {
      const acc = triple('ACCEL', point, 'acc', 'm/s^2');
      if (!acc) throw unreadable('no_acceleration', file);
      // One point's side comes with its file; both feet in one file are told by their names.
      const side = points.length === 1 ? 'unknown' : sideOf(point);
      return { side, side_value: null, acc, gyr: triple('GYRO', point, 'gyr', 'rad/s') };
    }),
  };
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
