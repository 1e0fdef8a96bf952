import type { LayoutCorrection } from '../../../../shared/schemas/layout.ts';
import { FaultError } from '../../../../shared/fault.ts';
import { LayoutQuestion } from '../../../../ingest/csv/columns/layout-question.ts';
import { type CsvRecording, readCsvRecording } from '../../../../ingest/csv/read-csv-recording.ts';
import type { RandomFile } from './make-random-file.ts';
import type { TrueSensor } from './true-sensor.ts';

export const OUTCOMES = [
  'right',
  'asked, right choice',
  'told',
  'refused rightly',
  'asked, no right choice',
  'refused needlessly',
  'SILENTLY WRONG',
  'WITHOUT END',
] as const;
export type Outcome = (typeof OUTCOMES)[number];
export interface Verdict {
  outcome: Outcome;
  why: string;
}

const LONGEST_MS = 20_000;
const DEEPEST = 4;

/** Reads a random file as a user would, answers what is asked, and compares with what was written. */
export async function judge(file: RandomFile): Promise<Verdict> {
  const started = Date.now();
  const verdict = await attempt(file, {}, {}, 0).catch(
    (cause: unknown): Verdict => ({
      outcome: 'SILENTLY WRONG',
      why: `crashed: ${cause instanceof Error ? cause.stack?.slice(0, 300) : cause}`,
    }),
  );
  const took = Date.now() - started;
  return took > LONGEST_MS ? { outcome: 'WITHOUT END', why: `${took} ms` } : verdict;
}

async function attempt(
  file: RandomFile,
  layout: LayoutCorrection,
  options: { rate_hz?: number; side?: 'left' | 'right' },
  depth: number,
): Promise<Verdict> {
  let read: CsvRecording;
  try {
    read = await readCsvRecording(file.bytes, {
      file_name: file.file_name,
      ...options,
      layout: depth > 0 ? layout : undefined,
    });
  } catch (cause) {
    if (!(cause instanceof FaultError)) throw cause;
    return refused(file, cause, layout, options, depth);
  }
  const wrong = difference(read, file);
  if (file.damage.expect === 'refuse') return { outcome: 'SILENTLY WRONG', why: `read although ${file.damage.kind}` };
  if (file.damage.expect === 'tell') {
    const said = read.faults.map(({ code }) => code);
    return said.length > 0
      ? { outcome: 'told', why: said.join(' ') }
      : { outcome: 'SILENTLY WRONG', why: `nothing said about ${file.damage.kind}` };
  }
  if (wrong) return { outcome: 'SILENTLY WRONG', why: wrong };
  return { outcome: depth > 0 ? 'asked, right choice' : 'right', why: '' };
}

async function refused(
  file: RandomFile,
  fault: FaultError,
  layout: LayoutCorrection,
  options: { rate_hz?: number },
  depth: number,
): Promise<Verdict> {
  const why = `${fault.code}: ${fault.message.slice(0, 240)}`;
  if (file.damage.expect === 'refuse') return { outcome: 'refused rightly', why };
  if (depth >= DEEPEST) return { outcome: 'asked, no right choice', why };
  if (file.needs_rate && options.rate_hz === undefined)
    return attempt(file, layout, { ...options, rate_hz: file.rate_hz }, depth + 1);
  if (!(fault instanceof LayoutQuestion))
    return file.damage.expect === 'tell' ? { outcome: 'refused rightly', why } : { outcome: 'refused needlessly', why };
  if (file.damage.expect === 'tell') return { outcome: 'told', why };
  const answered: string[] = [];
  for (const { correction, label } of fault.choices) {
    const merged = { ...layout, ...correction, time: { ...layout.time, ...correction.time } } as LayoutCorrection;
    if (Object.keys(merged.time ?? {}).length === 0) merged.time = undefined;
    const verdict = await attempt(file, merged, options, depth + 1);
    if (verdict.outcome === 'asked, right choice') return verdict;
    answered.push(`${label}: ${verdict.why}`);
  }
  return { outcome: 'asked, no right choice', why: [why, ...answered].join('; ') };
}

/** In words, the first thing that is not as it was written; null where all is right. */
function difference(read: CsvRecording, file: RandomFile): string | null {
  if (read.recordings.length !== file.sensors.length)
    return `${read.recordings.length} sensors of ${file.sensors.length}`;
  for (const [index, want] of file.sensors.entries()) {
    const found =
      read.recordings.find(({ side }) => side === want.side) ??
      (file.sensors.length === 1 && read.recordings[index].side === 'unknown' ? read.recordings[0] : undefined);
    if (!found) return `side ${read.recordings.map(({ side }) => side).join('+')} instead of ${want.side}`;
    const wrong = differenceOf(found.samples, want, file);
    if (wrong) return wrong;
  }
  return null;
}

function differenceOf(
  samples: CsvRecording['recordings'][number]['samples'],
  want: TrueSensor,
  file: RandomFile,
): string | null {
  const n = want.rows.length;
  if (samples.time_s.length !== n) return `${samples.time_s.length} samples of ${n}`;
  const gyr = want.rows[0].gyr !== null;
  if (gyr && samples.gyr_radps === null) return 'gyroscope left out';
  if (!gyr && samples.gyr_radps !== null) return 'a gyroscope that is none';
  if (
    file.start_s !== null &&
    samples.start_utc !== null &&
    Math.abs(Date.parse(samples.start_utc) / 1000 - file.start_s) > 1.5
  )
    return `starts ${samples.start_utc} instead of ${new Date(file.start_s * 1000).toISOString()}`;
  const { tolerance } = file;
  for (let i = 0; i < n; i++) {
    const row = want.rows[i];
    if (Math.abs(samples.time_s[i] - row.t) > tolerance.time_s)
      return `row ${i} at ${samples.time_s[i]} s instead of ${row.t}`;
    for (const [axis, name] of (['x', 'y', 'z'] as const).entries()) {
      if (off(samples.acc_mps2[name][i], row.acc[axis], tolerance.acc))
        return `row ${i} acc ${name} ${samples.acc_mps2[name][i]} instead of ${row.acc[axis]}`;
      if (row.gyr && off(samples.gyr_radps![name][i], row.gyr[axis], tolerance.gyr))
        return `row ${i} gyr ${name} ${samples.gyr_radps![name][i]} instead of ${row.gyr[axis]}`;
    }
  }
  return null;
}

function off(found: number, want: number | null, tolerance: number): boolean {
  if (want === null) return !Number.isNaN(found);
  return !(Math.abs(found - want) <= tolerance + 1e-6 * Math.abs(want));
}
