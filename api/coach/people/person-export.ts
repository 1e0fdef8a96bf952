import { createReadStream, existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { captureDataFolder, CaptureFolder } from '../../capture/recording/capture-folder.ts';
import { type ExportSink, zipOf } from '../../export/sink.ts';
import { getRatingPhoto } from '../judgement/rating-photos.ts';
import { stepsCsv } from '../../measuring/steps-csv.ts';
import { listContacts } from '../../store/analyses.ts';
import { getAthlete } from '../../store/athletes.ts';
import { readRawFile } from '../../store/raw-files.ts';
import type { Store } from '../../store/store.ts';

/** Tables with rows of one athlete, and how they are found. */
export const ROWS_OF_ATHLETE: Record<string, string> = {
  athletes: 'SELECT * FROM athletes WHERE athlete_id = @id',
  groups:
    'SELECT g.group_id, g.name FROM groups g JOIN group_members m ON m.group_id = g.group_id WHERE m.athlete_id = @id',
  athlete_measures: 'SELECT * FROM athlete_measures WHERE athlete_id = @id ORDER BY date',
  athlete_sensors: 'SELECT * FROM athlete_sensors WHERE athlete_id = @id',
  athlete_focuses: 'SELECT * FROM athlete_focuses WHERE athlete_id = @id ORDER BY from_date',
  sprint_tests: 'SELECT * FROM sprint_tests WHERE athlete_id = @id ORDER BY date',
  strength_records: 'SELECT * FROM strength_records WHERE athlete_id = @id ORDER BY date',
  // A group's session is also others': its title and notes are left out.
  sessions:
    'SELECT session_id, session_date, group_id, iif(athlete_id = @id, title, NULL) AS title, iif(athlete_id = @id, notes, NULL) AS notes FROM sessions WHERE session_id IN (SELECT session_id FROM repetitions WHERE athlete_id = @id) OR athlete_id = @id ORDER BY session_date',
  repetitions: 'SELECT * FROM repetitions WHERE athlete_id = @id ORDER BY repetition_id',
  repetition_ratings:
    'SELECT * FROM repetition_ratings WHERE repetition_id IN (SELECT repetition_id FROM repetitions WHERE athlete_id = @id)',
  rating_photos:
    'SELECT repetition_id, aspect, media_type, added_utc FROM rating_photos WHERE repetition_id IN (SELECT repetition_id FROM repetitions WHERE athlete_id = @id)',
  film_ties:
    'SELECT * FROM film_ties WHERE repetition_id IN (SELECT repetition_id FROM repetitions WHERE athlete_id = @id)',
  athlete_returns: 'SELECT * FROM athlete_returns WHERE athlete_id = @id',
  analyses:
    'SELECT * FROM analyses WHERE repetition_id IN (SELECT repetition_id FROM repetitions WHERE athlete_id = @id) ORDER BY analysis_id',
  recordings: 'SELECT * FROM recordings WHERE athlete_id = @id ORDER BY recording_id',
  imports: 'SELECT * FROM imports WHERE athlete_id = @id ORDER BY import_id',
  session_athletes: 'SELECT * FROM session_athletes WHERE athlete_id = @id',
  retention_answers: 'SELECT * FROM retention_answers WHERE athlete_id = @id',
  research_consents: 'SELECT * FROM research_consents WHERE athlete_id = @id',
  athlete_pseudonyms: 'SELECT * FROM athlete_pseudonyms WHERE athlete_id = @id',
  session_pseudonyms: 'SELECT * FROM session_pseudonyms WHERE athlete_id = @id',
  audit: 'SELECT * FROM audit WHERE athlete_id = @id ORDER BY audit_id',
  // What a programme's archive was last agreed with, as marks, and where two machines had written the same field.
  archive_rows: 'SELECT * FROM archive_rows WHERE athlete_id = @id',
  archive_conflicts: 'SELECT * FROM archive_conflicts WHERE athlete_id = @id ORDER BY found_utc',
  erasures: 'SELECT * FROM erasures WHERE athlete_id = @id',
  research_exports:
    'SELECT e.export_id, e.created_utc FROM research_exports e JOIN research_export_athletes a ON a.export_id = e.export_id WHERE a.athlete_id = @id',
};

const README = `Everything Cinderlane keeps about one person.

person.json      every row: the person, measures, focuses, sprint tests, strength, sessions, repetitions,
                 ratings, analyses with settings and provenance, recordings. Field names carry their units.
steps/           one CSV a repetition: every ground contact of the current analysis.
photographs/     pictures beside ratings.
recordings/      the sensors' files as they came, byte for byte, those of imports that failed included.
captures/        what sensors sent live: packet logs.

Deleted rows that can still be restored are included (deleted_utc is set). Other people's rows are not.
`;

/**
 * Everything kept about one person, as a zip that is made while it is sent.
 * @throws FaultError ATHLETE_NOT_FOUND, deleted athletes included
 */
export function personExport(store: Store, athlete_id: number): Readable {
  getAthlete(store, athlete_id, true);
  return zipOf((sink) => writeAll(store, athlete_id, sink));
}

async function writeAll(store: Store, athlete_id: number, sink: ExportSink): Promise<void> {
  await sink.add('README.txt', [README]);
  const person = Object.fromEntries(
    Object.entries(ROWS_OF_ATHLETE).map(([table, sql]) => [
      table,
      store.prepare(sql).all({ id: athlete_id }).map(readJson),
    ]),
  );
  await sink.add('person.json', [
    `${JSON.stringify({ exported_utc: new Date().toISOString(), ...person }, null, 1)}\n`,
  ]);
  for (const { repetition_id, analysis_id } of currentAnalyses(store, athlete_id)) {
    await sink.add(`steps/repetition-${repetition_id}.csv`, [stepsCsv(listContacts(store, analysis_id))]);
  }
  for (const photo of photos(store, athlete_id)) {
    const { repetition_id, aspect, media_type } = photo;
    const path = `photographs/repetition-${repetition_id}-${aspect}.${media_type.replace('image/', '')}`;
    await sink.add(path, [getRatingPhoto(store, repetition_id, aspect).bytes], false);
  }
  for (const { raw_file_id, file_name } of rawFiles(store, athlete_id)) {
    await sink.add(`recordings/${raw_file_id}-${safeName(file_name)}`, readRawFile(store, raw_file_id), false);
  }
  for (const { capture_id, sensor_id, file } of packetLogs(store, athlete_id)) {
    await sink.add(`captures/${safeName(capture_id)}/${safeName(sensor_id)}.packets`, createReadStream(file), false);
  }
}

function currentAnalyses(store: Store, athlete_id: number): { repetition_id: number; analysis_id: number }[] {
  return store
    .prepare(
      'SELECT repetition_id, analysis_id FROM repetitions WHERE athlete_id = ? AND analysis_id IS NOT NULL ORDER BY repetition_id',
    )
    .all(athlete_id) as { repetition_id: number; analysis_id: number }[];
}

function photos(store: Store, athlete_id: number): { repetition_id: number; aspect: string; media_type: string }[] {
  return store
    .prepare(
      'SELECT repetition_id, aspect, media_type FROM rating_photos WHERE repetition_id IN (SELECT repetition_id FROM repetitions WHERE athlete_id = ?)',
    )
    .all(athlete_id) as { repetition_id: number; aspect: string; media_type: string }[];
}

function rawFiles(store: Store, athlete_id: number): { raw_file_id: number; file_name: string }[] {
  return store
    .prepare(
      `SELECT f.raw_file_id, f.file_name FROM raw_files f WHERE f.raw_sha256 IS NOT NULL AND f.raw_file_id IN (
         SELECT raw_file_id FROM recordings WHERE athlete_id = @id
         UNION SELECT x.raw_file_id FROM import_files x JOIN imports i ON i.import_id = x.import_id WHERE i.athlete_id = @id
       ) ORDER BY f.raw_file_id`,
    )
    .all({ id: athlete_id }) as { raw_file_id: number; file_name: string }[];
}

/** Packet logs of captures in which this person wore the sensor and nobody else did. */
function packetLogs(store: Store, athlete_id: number): { capture_id: string; sensor_id: string; file: string }[] {
  const folder = join(captureDataFolder(store), 'captures');
  if (!existsSync(folder)) return [];
  const captures = new CaptureFolder(folder);
  return captures.all().flatMap(({ capture_id, sensors }) =>
    sensors
      .filter(({ athlete_ids }) => athlete_ids.length === 1 && athlete_ids[0] === athlete_id)
      .map(({ sensor_id }) => ({ capture_id, sensor_id, file: captures.logFile(capture_id, sensor_id) }))
      .filter(({ file }) => existsSync(file)),
  );
}

/** A file name that every system and every program for archives takes: no folders, no control characters, not too long. */
function safeName(name: string): string {
  const plain = name
    .normalize('NFC')
    .replace(/[^\p{L}\p{N}._ -]/gu, '_')
    .replace(/^[. ]/, '_');
  return plain.length > 120 ? `${plain.slice(0, 80)}...${plain.slice(-37)}` : plain;
}

/** JSON kept as text is given as JSON. */
function readJson(row: unknown): unknown {
  return Object.fromEntries(
    Object.entries(row as Record<string, unknown>).map(([name, value]) => {
      if (typeof value !== 'string' || !/^[[{]/.test(value)) return [name, value];
      try {
        return [name, JSON.parse(value)];
      } catch {
        return [name, value];
      }
    }),
  );
}
