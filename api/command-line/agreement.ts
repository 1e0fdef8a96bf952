import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { METHOD } from '../../dsp/analyse.ts';
import { DEFAULT_SETTINGS } from '../../dsp/settings/settings.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import { parseDistance } from '../../shared/course-text.ts';
import { parseSpeed, parseTime } from '../../shared/quantity-text.ts';
import { type AgreementStudy, REFERENCE_CLOCKS } from '../../shared/schemas/agreement.ts';
import { readReference } from '../agreement/read-reference.ts';
import { readStudyList, type StudyLine } from '../agreement/read-study-list.ts';
import { agreementStudy, type StudyCase } from '../agreement/study.ts';
import { studyTable } from '../agreement/study-words.ts';
import { analyseSources } from '../measuring/analyse-sources.ts';
import { readSensorFiles, type SensorFile } from '../measuring/read-sensor-files.ts';
import { folderSink } from '../export/sink.ts';
import { JUDGEMENT_WORDS } from '../../shared/messages/judgement-languages.ts';
import { terminalSpeech } from './speech.ts';
import { writeStudy } from './write-study.ts';
import type { Command } from './command.ts';
import { EXIT } from './exit-codes.ts';
import { openInputFile } from './input-files.ts';

export const agreementCommand: Command = {
  name: 'agreement',
  summary: 'How sensors agree with a reference system: force plate, photocells or video.',
  options: {
    list: {
      value: 'FILE',
      required: true,
      help: 'CSV: athlete, left, right, mount, reference; recording, belt_speed, course, time',
    },
    'reference-clock': {
      value: 'WORD',
      words: REFERENCE_CLOCKS,
      help: "file: reference times run on the sensor file's clock (without it); unrelated: found from the steps",
    },
    title: { value: 'TEXT', help: 'heading of the report' },
    out: {
      value: 'DIR',
      help: 'a new or empty folder for quantities.csv, recordings.csv, pairs.csv, study.json, report.pdf and figures (SVG, PDF, CSV)',
    },
  },
  details: [
    'A reference file is CSV with a row a contact: side, touchdown_s, toe_off_s, step_length_m (what it does not know stays empty).',
    'Several contacts of one athlete are not independent: with two athletes and more, limits of agreement allow for that.',
  ].join('\n'),
  run: async (options) => {
    const sink = options.out === undefined ? null : folderSink(resolve(options.out as string));
    const clock = (options['reference-clock'] as AgreementStudy['reference_clock'] | undefined) ?? 'file';
    const cases: StudyCase[] = [];
    for (const line of readStudyList(resolve(options.list as string))) cases.push(await caseOf(line));
    const study = agreementStudy(cases, clock, METHOD);
    process.stdout.write(studyTable(study, JUDGEMENT_WORDS[terminalSpeech().language]));
    if (sink) await writeStudy(sink, study, options.title as string | undefined);
    return EXIT.done;
  },
};

async function caseOf(line: StudyLine): Promise<StudyCase> {
  const files: SensorFile[] = [];
  if (line.left) files.push({ side: 'left', ...openInputFile(line.left) });
  if (line.right) files.push({ side: 'right', ...openInputFile(line.right) });
  const { sensors } = await readSensorFiles(files, { mounting: line.mounting });
  const analysis = analyseSources(
    sensors.map((sensor) => sensor.source),
    {
      ...UNKNOWN_COURSE,
      belt_speed_mps: line.belt_speed ? parseSpeed(line.belt_speed) : null,
      distance_m: line.course ? parseDistance(line.course) : null,
      time_s: line.time ? parseTime(line.time) : null,
    },
    UNKNOWN_CONDITIONS,
    DEFAULT_SETTINGS,
  );
  for (const { spool } of sensors) spool?.close(false);
  return {
    recording: line.recording,
    athlete: line.athlete,
    contacts: analysis.repetitions.flatMap((repetition) => repetition.contacts),
    reference: readReference(readFileSync(line.reference, 'utf8'), line.reference),
  };
}
