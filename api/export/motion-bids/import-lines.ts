import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import type { Course } from '../../../shared/analysis.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import type { ImportLine } from './import-line.ts';
import { parseStem } from './names.ts';
import { type RecordingSidecar, readTsv, unreadable } from './read-motion-bids.ts';

/**
 * Turns a Motion-BIDS data set into imports: one a run, with left and right sensors together. Sides and mounting come from our
 * own sidecar, or from the tracked points' names; courses from our derivatives where there are any.
 * @throws FaultError DATASET_UNREADABLE
 */
export function motionBidsLines(folder: string): ImportLine[] {
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
  return [...runs.values()].map((files) => lineOf(folder, files));
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
    label: `sub-${sub} ses-${ses} run-${run}`,
    files: named,
    athlete: `sub-${sub}`,
    date: dateOf(files[0]),
    form: {
      mounting: sidecars[0].Mounting ?? (/shank|shin|tibia|ankle/i.test(pointOf(files[0])) ? 'shank' : 'foot'),
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
  return existsSync(own) ? (JSON.parse(readFileSync(own, 'utf8')) as RecordingSidecar) : {};
}

function channelsOf(file: string): Record<string, string>[] {
  return readTsv(file.replace('_motion.tsv', '_channels.tsv'));
}

function pointOf(file: string): string {
  return channelsOf(file).find((channel) => channel.type === 'ACCEL')?.tracked_point ?? '';
}

function sideByName(file: string): 'left' | 'right' | 'unknown' {
  const point = pointOf(file);
  if (/left/i.test(point)) return 'left';
  return /right/i.test(point) ? 'right' : 'unknown';
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
  const find = (type: string, component: string): number =>
    channels.findIndex((c) => c.type === type && c.component === component);
  const axes = (type: string): [number, number, number] => [find(type, 'x'), find(type, 'y'), find(type, 'z')];
  const latency = channels.findIndex((channel) => channel.type === 'LATENCY');
  const motion = JSON.parse(readFileSync(file.replace('.tsv', '.json'), 'utf8')) as { SamplingFrequency: number };
  const [acc, gyr] = [axes('ACCEL'), axes('GYRO')];
  if (acc.includes(-1)) throw unreadable('no_acceleration', file);
  return {
    text: { delimiter: '\t', decimal_mark: '.', header_row: false, units_row: false, missing_values: ['n/a'] },
    time:
      latency >= 0
        ? { kind: 'number', columns: [latency], seconds_per_unit: 1 }
        : { kind: 'rows', columns: [], rate_hz: motion.SamplingFrequency },
    sensors: [
      {
        side: 'unknown',
        side_value: null,
        acc: { columns: acc, signs: [1, 1, 1], unit: 'm/s2', to_si: 1 },
        gyr: gyr.includes(-1) ? null : { columns: gyr, signs: [1, 1, 1], unit: 'rad/s', to_si: 1 },
      },
    ],
  };
}

/** The course of the run's only repetition; with several, each had its own and none is taken. */
function courseOfRun(folder: string, file: string, run: number): Course | null {
  const derived = join(folder, 'derivatives', 'cinderlane', relative(folder, dirname(file)));
  if (!existsSync(derived)) return null;
  const found = readdirSync(derived).filter(
    (name) => name.includes(`_run-${run}_desc-repetition`) && name.endsWith('_steps.json'),
  );
  if (found.length !== 1) return null;
  return (JSON.parse(readFileSync(join(derived, found[0]), 'utf8')) as { Course?: Course }).Course ?? null;
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
