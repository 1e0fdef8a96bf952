import type { Conditions, Course } from '../../../shared/analysis.ts';
import type { Gap, SampleBlock, SensorRecording } from '../../../shared/sample-block.ts';
import { type CourseFields, courseOf, type Measure, nearestMeasure } from '../../measuring/course-and-conditions.ts';
import { decodeChannel } from '../../store/channel-codec.ts';
import { CHANNELS, type Channel } from '../../store/channels.ts';
import { type SampleSource, sourceInMemory } from '../../store/sample-source.ts';
import type { ArchiveClient } from '../connect.ts';
import type { ArchiveJob } from '../queue.ts';

/** A repetition of the archive, ready to be analysed as its club would. */
export interface LoadedRepetition {
  person_id: string;
  session_date: string;
  sources: SampleSource[];
  raw_sha256: string[];
  course: Course;
  conditions: Conditions;
  number_in_recording: number;
  /** Where its present result lies in the recording; null where it has none. */
  earlier: { start_s: number; end_s: number } | null;
  read_bytes: number;
}

type Row = Record<string, unknown>;

/** @returns null where the repetition has left the archive, or has no recording there */
export async function loadRepetition(client: ArchiveClient, job: ArchiveJob): Promise<LoadedRepetition | null> {
  const { club_id, repetition_id } = job;
  const one = async (kind: string, id: unknown) =>
    (
      await client.query<{ fields: Row; person_id: string }>(
        'SELECT fields, person_id FROM archive.records WHERE club_id = $1 AND kind = $2 AND record_id = $3',
        [club_id, kind, id],
      )
    ).rows[0];
  const repetition = await one('repetitions', repetition_id);
  if (!repetition) return null;
  const { fields, person_id } = repetition;
  const session = await one('sessions', fields.session_id);
  const person = await one('athletes', person_id);
  if (!session || !person) return null;
  const { rows: recordings } = await client.query<Row>(
    `SELECT * FROM archive.recordings WHERE club_id = $1 AND recording_id = ANY($2::uuid[]) ORDER BY side COLLATE "C", recording_id`,
    [club_id, fields.recordings],
  );
  if (recordings.length === 0) return null;
  const { rows: measures } = await client.query<{ fields: Measure }>(
    "SELECT fields FROM archive.records WHERE club_id = $1 AND kind = 'athlete_measures' AND person_id = $2 AND NOT gone",
    [club_id, person_id],
  );
  const { rows: earlier } = await client.query<{ result: string }>(
    'SELECT result FROM archive.analyses WHERE club_id = $1 AND analysis_id = $2',
    [club_id, fields.analysis_id],
  );
  const session_date = session.fields.session_date as string;
  const taken = measures.map((row) => row.fields);
  const body = (name: 'body_mass_kg' | 'stature_m' | 'leg_length_m') =>
    nearestMeasure(taken, name, session_date) ?? (person.fields[name] as number | null);
  let read_bytes = 0;
  const sources: SampleSource[] = [];
  for (const recording of recordings) {
    const { source, bytes } = await loadRecording(client, club_id, recording);
    sources.push(source);
    read_bytes += bytes;
  }
  return {
    person_id,
    session_date,
    sources,
    raw_sha256: recordings.map(({ raw_sha256 }) => (raw_sha256 as string | null) ?? ''),
    course: courseOf({ ...fields, splits: JSON.parse(String(fields.splits ?? '[]')) } as unknown as CourseFields),
    conditions: {
      body_mass_kg: body('body_mass_kg'),
      stature_m: body('stature_m'),
      leg_length_m: body('leg_length_m'),
      temperature_c: session.fields.temperature_c as number | null,
      pressure_hpa: session.fields.pressure_hpa as number | null,
      wind_mps: fields.wind_mps as number | null,
    },
    number_in_recording: (fields.number_in_recording as number | null) ?? 1,
    earlier: earlier.length === 0 ? null : JSON.parse(earlier[0].result),
    read_bytes,
  };
}

async function loadRecording(client: ArchiveClient, club_id: string, row: Row) {
  const { rows } = await client.query<{ channel: Channel; first_sample: number; bytes: Buffer }>(
    'SELECT channel, first_sample, bytes FROM archive.recording_chunks WHERE club_id = $1 AND recording_id = $2',
    [club_id, row.recording_id],
  );
  const samples = row.samples as number;
  const columns = Object.fromEntries(CHANNELS.map((name) => [name, new Float64Array(0)])) as Record<
    Channel,
    Float64Array
  >;
  let bytes = 0;
  for (const chunk of rows) {
    if (columns[chunk.channel].length === 0) columns[chunk.channel] = new Float64Array(samples);
    columns[chunk.channel].set(decodeChannel(chunk.bytes), chunk.first_sample);
    bytes += chunk.bytes.length;
  }
  const axes = (kind: 'acc' | 'gyr') => ({ x: columns[`${kind}_x`], y: columns[`${kind}_y`], z: columns[`${kind}_z`] });
  const gaps = JSON.parse(row.gaps as string) as Gap[];
  const description = {
    side: row.side as SensorRecording['side'],
    mounting: row.mounting as SensorRecording['mounting'],
    start_utc: row.start_utc as string | null,
    sampling_rate_hz: row.sampling_rate_hz as number,
    samples,
    duration_s: row.duration_s as number,
    has_gyroscope: row.has_gyroscope === 1,
    acc_range_mps2: row.acc_range_mps2 as number | null,
    gyr_range_radps: row.gyr_range_radps as number | null,
    gaps,
    clock_offset_s: row.clock_offset_s as number,
    clock_drift: row.clock_drift as number,
    clock_offset_u_s: row.clock_offset_u_s as number,
  };
  const block: SampleBlock = {
    start_utc: description.start_utc,
    sampling_rate_hz: description.sampling_rate_hz,
    time_s: columns.time_s,
    acc_mps2: axes('acc'),
    gyr_radps: description.has_gyroscope ? axes('gyr') : null,
    gaps,
    acc_range_mps2: description.acc_range_mps2,
    gyr_range_radps: description.gyr_range_radps,
  };
  return { source: sourceInMemory(description, block), bytes };
}
