import { ownTime } from '../../../shared/sensor-clock.ts';
import { speechOf } from '../../../shared/messages/speeches.ts';
import { tellAll } from '../../../shared/messages/tell-all.ts';
import type { Contact } from '../../../shared/analysis.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import type { ExportOrder } from '../../../shared/schemas/export.ts';
import { conditionsOf, courseOf } from '../../measuring/course-and-conditions.ts';
import { listContacts } from '../../store/analyses.ts';
import { readRecording } from '../../store/read-samples.ts';
import { listRecordings } from '../../store/recordings.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { stepsCsv } from '../../measuring/steps-csv.ts';
import { VERSION } from '../../version.ts';
import { exportedAge } from '../exported-age.ts';
import { citation, methodStatement } from '../method-statement.ts';
import { fictiveInstant } from '../privacy/fictive-dates.ts';
import { type LevelStatement, levelOf, levelStatement } from '../privacy/levels.ts';
import {
  fictiveDatesOf,
  OPEN_PARTICIPANTS_SIDECAR,
  openParticipants,
  sessionKey,
  withoutBody,
} from './open-motion-bids.ts';
import { Pseudonyms } from '../pseudonyms.ts';
import type { SelectedRepetition, Selection } from '../selection.ts';
import type { ExportSink } from '../sink.ts';
import { fileStem, folderOf, label, tsv } from './names.ts';
import { channelsTsv, motionLines, motionSidecar, recordingSidecar } from './motion-file.ts';

const TASK = 'sprint';
const json = (value: unknown): string[] => [`${JSON.stringify(tellAll(value, speechOf('en')), null, 1)}\n`];

/** Names of one run: the recordings of one import, with every repetition in them. */
interface Run {
  sub: string;
  ses: string;
  run: number;
  /** Invented, at the open level; null elsewhere and where nobody knows the day. */
  date: string | null;
  recording_ids: number[];
  repetitions: SelectedRepetition[];
  /** What the set calls each repetition. */
  numbers: Map<number, number>;
}

/**
 * Writes raw signals with their contacts as a Motion-BIDS data set: one tracking system a sensor, as left and right may have
 * clocks and rates of their own; touchdown and toe-off as events on each sensor's own clock. Analyses go to derivatives.
 */
export async function writeMotionBids(
  store: Store,
  selection: Selection,
  order: ExportOrder,
  sink: ExportSink,
): Promise<void> {
  const names = new Pseudonyms(store);
  const level = levelStatement(order);
  const open = level.level === 'open';
  await sink.add('dataset_description.json', json(datasetDescription()));
  await sink.add('README.md', [readme(methodStatement(store, selection), level)]);
  await sink.add('participants.tsv', [participants(store, selection, order, names)]);
  await sink.add('participants.json', json(open ? OPEN_PARTICIPANTS_SIDECAR : PARTICIPANTS_SIDECAR));
  const scans = new Map<string, [string, string | null][]>();
  for (const run of runsOf(store, selection, order, names)) {
    for (const id of run.recording_ids) {
      const [path, acquired] = await writeSensor(store, run, id, order, names, sink);
      const scan = `${folderOf(run)}/sub-${run.sub}_ses-${run.ses}_scans.tsv`;
      scans.set(scan, [...(scans.get(scan) ?? []), [path, acquired]]);
    }
    for (const { repetition_id, analysis_id } of run.repetitions) {
      const stem = `derivatives/cinderlane/${folderOf(run)}/motion/sub-${run.sub}_ses-${run.ses}_task-${TASK}_run-${run.run}_desc-repetition${run.numbers.get(repetition_id)}_steps`;
      const contacts = listContacts(store, analysis_id);
      await sink.add(`${stem}.csv`, [stepsCsv(open ? contacts.map(withoutBody) : contacts)]);
      const sidecar = analysisSidecar(store, repetition_id, analysis_id);
      await sink.add(
        `${stem}.json`,
        json(open ? { ...sidecar, RawSha256: undefined, Conditions: undefined } : sidecar),
      );
    }
  }
  for (const [path, rows] of scans) await sink.add(path, [tsv(['filename', 'acq_time'], rows)]);
  await sink.add('derivatives/cinderlane/deidentification.json', json(level));
  await sink.add('derivatives/cinderlane/dataset_description.json', json(derivativeDescription()));
}

/** Runs in order; repetitions of one recording share a run. */
function runsOf(store: Store, selection: Selection, order: ExportOrder, names: Pseudonyms): Run[] {
  const runs = new Map<string, Run>();
  const counts = new Map<string, number>();
  const open = levelOf(order) === 'open';
  const numbers = new Map(
    selection.repetitions.map(({ repetition_id }, i) => [repetition_id, open ? i + 1 : repetition_id]),
  );
  const openDates = open ? fictiveDatesOf(selection, names) : null;
  for (const repetition of selection.repetitions) {
    const ids = listRecordings(store, repetition.repetition_id).map((r) => r.recording_id);
    if (ids.length === 0) continue;
    const key = ids.join(' ');
    const known = runs.get(key);
    if (known) {
      known.repetitions.push(repetition);
      continue;
    }
    const sub = label(order.with_names ? nameOf(store, repetition.athlete_id) : names.athlete(repetition.athlete_id));
    const ses = label(names.session(repetition.session_id, repetition.athlete_id));
    const run = (counts.get(`${sub} ${ses}`) ?? 0) + 1;
    counts.set(`${sub} ${ses}`, run);
    const date = openDates?.get(sessionKey(repetition)) ?? null;
    runs.set(key, { sub, ses, run, date, recording_ids: ids, repetitions: [repetition], numbers });
  }
  return [...runs.values()];
}

async function writeSensor(
  store: Store,
  run: Run,
  recordingId: number,
  order: ExportOrder,
  names: Pseudonyms,
  sink: ExportSink,
): Promise<[string, string | null]> {
  const recording = readRecording(store, recordingId);
  const tracksys = label(`${recording.mounting}${recording.side}`);
  const stem = `motion/${fileStem({ ...run, task: TASK, tracksys })}`;
  const base = `${folderOf(run)}/${stem}`;
  await sink.add(`${base}_motion.tsv`, motionLines(recording.samples));
  await sink.add(`${base}_motion.json`, json(motionSidecar(recording, TASK)));
  await sink.add(`derivatives/cinderlane/${base}_desc-recording.json`, json(recordingSidecar(recording)));
  await sink.add(`${base}_channels.tsv`, [channelsTsv(recording)]);
  await sink.add(`${base}_channels.json`, json(CHANNELS_SIDECAR));
  await sink.add(`${base}_events.tsv`, [eventsTsv(store, run, recording)]);
  await sink.add(`${base}_events.json`, json(EVENTS_SIDECAR));
  return [`${stem}_motion.tsv`, acquisition(recording.samples.start_utc, run, order, names)];
}

/** Start of the recording; moved with the athlete's dates where those are shifted. */
function acquisition(start: string | null, run: Run, order: ExportOrder, names: Pseudonyms): string | null {
  if (levelOf(order) === 'open') return run.date && fictiveInstant(run.date, run.run);
  if (!start) return null;
  if (!order.shift_dates) return start;
  const moved = Date.parse(start) - names.dayShift(run.repetitions[0].athlete_id) * 86_400_000;
  return new Date(moved).toISOString();
}

function eventsTsv(store: Store, run: Run, recording: SensorRecording): string {
  const own = (t: number): number => ownTime(t, recording);
  const rows = run.repetitions.flatMap(({ repetition_id, analysis_id }) =>
    listContacts(store, analysis_id)
      .filter((contact) => contact.side === recording.side)
      .flatMap((contact) => eventRows(contact, run.numbers.get(repetition_id)!, own)),
  );
  rows.sort((a, b) => Number(a[0]) - Number(b[0]));
  return tsv(['onset', 'duration', 'trial_type', 'repetition', 'step', 'uncertainty', 'confidence'], rows);
}

function eventRows(contact: Contact, repetition: number, own: (t: number) => number): (string | number | null)[][] {
  const round = (t: number): number => Number(t.toFixed(6));
  const { touchdown_s, toe_off_s, step, confidence } = contact;
  const rows: (string | number | null)[][] = [
    [
      round(own(touchdown_s)),
      toe_off_s === null ? null : round(toe_off_s - touchdown_s),
      'touchdown',
      repetition,
      step,
      contact.touchdown_s_u,
      confidence,
    ],
  ];
  if (toe_off_s !== null)
    rows.push([round(own(toe_off_s)), 0, 'toe-off', repetition, step, contact.toe_off_s_u, confidence]);
  return rows;
}

function participants(store: Store, selection: Selection, order: ExportOrder, names: Pseudonyms): string {
  const read = store.prepare('SELECT * FROM athletes WHERE athlete_id = ?');
  if (levelOf(order) === 'open') return openParticipants(store, selection, names);
  const rows = selection.athlete_ids.map((id) => {
    const row = read.get(id) as Record<string, string | number | null>;
    const first = selection.repetitions.find((r) => r.athlete_id === id)!;
    const sub = label(order.with_names ? String(row.name) : names.athlete(id));
    return [
      `sub-${sub}`,
      'homo sapiens',
      exportedAge(row.birth_date as string | null, first.session_date),
      row.sex,
      row.body_mass_kg,
      row.stature_m,
      row.leg_length_m,
    ];
  });
  return tsv(['participant_id', 'species', 'age', 'sex', 'body_mass', 'stature', 'leg_length'], rows);
}

function nameOf(store: Store, athleteId: number): string {
  return (store.prepare('SELECT name FROM athletes WHERE athlete_id = ?').get(athleteId) as { name: string }).name;
}

function analysisSidecar(store: Store, repetition_id: number, analysis_id: number): object {
  const row = store.prepare('SELECT * FROM analyses WHERE analysis_id = ?').get(analysis_id) as Record<string, string>;
  const line = getRepetitionLine(store, repetition_id);
  return {
    GeneratedBy: [{ Name: 'Cinderlane', Version: row.version }],
    Method: row.method,
    Settings: JSON.parse(row.settings),
    SettingsSha256: row.settings_sha256,
    RawSha256: JSON.parse(row.raw_sha256),
    Filters: JSON.parse(row.filters),
    RepetitionInRecording: line.number_in_recording ?? 1,
    Course: courseOf(line),
    Conditions: conditionsOf(store, line),
  };
}

function datasetDescription(): object {
  return {
    Name: 'Sprint repetitions: foot and shank sensors with ground contacts',
    BIDSVersion: '1.10.0',
    DatasetType: 'raw',
    License: 'To be stated by those who share this data set',
    Authors: ['To be stated by those who share this data set'],
    HowToAcknowledge: citation(),
    GeneratedBy: [{ Name: 'Cinderlane', Version: VERSION }],
  };
}

function derivativeDescription(): object {
  return {
    Name: 'Contacts, steps and speed',
    BIDSVersion: '1.10.0',
    DatasetType: 'derivative',
    GeneratedBy: [{ Name: 'Cinderlane', Version: VERSION }],
  };
}

const CHANNELS_SIDECAR = {
  reference_frame: {
    Description: "How a channel's axes lie.",
    Levels: {
      sensor: {
        Description: "The sensor's own axes; how it sits on the shoe or shank is not known and not needed.",
      },
    },
  },
};

const EVENTS_SIDECAR = {
  onset: { Description: "Seconds from this recording's first sample.", Units: 's' },
  duration: { Description: 'Of a touchdown: the contact time; of a toe-off: 0.', Units: 's' },
  trial_type: {
    LongName: 'Event',
    Levels: { touchdown: 'First instant of the foot on the ground.', 'toe-off': 'Last instant of that contact.' },
  },
  repetition: { Description: 'Identifier of the repetition.' },
  step: { Description: 'Number of the contact within its repetition, over both feet.' },
  uncertainty: { Description: 'Standard uncertainty of the onset.', Units: 's' },
  confidence: { Description: 'How sure the detection is of this contact, 0 to 1.' },
};

const PARTICIPANTS_SIDECAR = {
  species: { Description: 'Species of the participant.' },
  age: { Description: 'Completed years at the first exported session, 89 at most.', Units: 'year' },
  sex: { Description: 'As given by the participant.' },
  body_mass: { Description: 'Last known body mass.', Units: 'kg' },
  stature: { Description: 'Last known stature.', Units: 'm' },
  leg_length: { Description: 'Height of the greater trochanter above the ground.', Units: 'm' },
};

function readme(methods: string, level: LevelStatement): string {
  return `# Sprint repetitions

Raw signals of sensors on feet or shanks, with every ground contact as events. Each sensor is a tracking system of its own,
since left and right may have clocks and rates of their own; derivatives/cinderlane holds for each its clock's offset and
drift against the other. Contacts, steps and speed are under derivatives/cinderlane, with the settings that made them.

Level: ${level.level}. ${level.meaning} What was done, and what is left, is in derivatives/cinderlane/deidentification.json.

${methods}`;
}
