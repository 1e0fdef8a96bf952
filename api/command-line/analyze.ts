import { tellAll } from '../../shared/messages/tell-all.ts';
import { FILE_SPEECH, terminalSpeech } from './speech.ts';
import { tmpdir } from 'node:os';
import { DEFAULT_SETTINGS } from '../../dsp/settings/settings.ts';
import { type Course, type RepetitionResult, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import { parseDistance } from '../../shared/course-text.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import { parseRate, parseSpeed, parseSplits, parseTime } from '../../shared/quantity-text.ts';
import { CLOCK_STARTS, type ClockStart, MOUNTINGS, type Mounting } from '../../shared/words.ts';
import { analyseSources } from '../measuring/analyse-sources.ts';
import { provenanceOf } from '../measuring/provenance.ts';
import { checkLayout } from '../measuring/read-layout-field.ts';
import { readSensorFiles, type SensorFile } from '../measuring/read-sensor-files.ts';
import { mergeSettings } from '../measuring/read-settings.ts';
import { ResultSpool, spooledResults } from '../measuring/result-spool.ts';
import { type AnalyzeOutput, outputFiles } from './analyze-output.ts';
import type { Command, OptionValues } from './command.ts';
import { contactTable } from './contact-table.ts';
import { EXIT } from './exit-codes.ts';
import { openInputFile, readJsonFile } from './input-files.ts';
import { writeOutputFiles } from './write-output-files.ts';

/** `gun` and `gate` as on the command line; without `--clock` the first movement starts the clock. */
const CLOCK_WORDS = CLOCK_STARTS;

export const analyzeCommand: Command = {
  name: 'analyze',
  summary: "Every ground contact of one athlete's recording, from one or two sensor files.",
  options: {
    left: { value: 'FILE', help: 'CSV of the left sensor, plain or gzip' },
    right: { value: 'FILE', help: 'CSV of the right sensor; one side alone will do' },
    file: { value: 'FILE', help: 'CSV that holds both feet, instead of --left and --right' },
    mount: { value: 'foot|shank', required: true, words: MOUNTINGS, help: 'where the sensors sit' },
    course: { value: 'DISTANCE', help: 'length of the course with its unit: 40yd, 36.576m' },
    time: { value: 'TIME', help: 'time over the course: 5.21s' },
    split: { value: 'DISTANCE=TIME', multiple: true, help: 'time at a distance: 10m=2.103s' },
    clock: { value: 'WORD', words: CLOCK_WORDS, help: 'what starts the times: first_movement, gun or gate' },
    'belt-speed': { value: 'SPEED', help: 'speed of a treadmill: 3.55mps' },
    rate: { value: 'RATE', help: 'sampling rate where the file has no time: 500hz' },
    layout: { value: 'FILE', help: 'JSON that says how the columns are named and scaled' },
    settings: { value: 'FILE', help: 'JSON with analysis settings that differ from the defaults' },
    out: { value: 'DIR', help: 'folder for steps.csv, repetitions.csv, quality.json, provenance.json' },
    format: { value: 'table|json', words: ['table', 'json'], help: 'what is printed; a table without it' },
  },
  details: [
    "Times run from the athlete's first movement unless --clock says otherwise. Walking and standing are left out.",
    'An empty field is "not measurable", never a guess. Without --out the table is printed.',
    'Exit codes: 0 done, 1 failed, 2 wrong usage, 3 input refused.',
  ].join('\n'),
  run: runAnalyze,
};

async function runAnalyze(options: OptionValues): Promise<0> {
  const text = options as Record<string, string | undefined>;
  const course = courseOfOptions(options);
  const rateHz = text.rate === undefined ? undefined : parseRate(text.rate);
  const settings =
    text.settings === undefined ? DEFAULT_SETTINGS : mergeSettings(await readJsonFile(text.settings), text.settings);
  const layout = text.layout === undefined ? undefined : checkLayout(await readJsonFile(text.layout), text.layout);
  const files = sensorFiles(text);
  const { sensors, faults } = await readSensorFiles(files, {
    mounting: text.mount as Mounting,
    rate_hz: rateHz,
    layout,
  });
  const sources = sensors.map((sensor) => sensor.source);
  const spool = new ResultSpool(tmpdir());
  try {
    const onRepetition = (result: RepetitionResult) => spool.add(result);
    const analysis = analyseSources(sources, course, UNKNOWN_CONDITIONS, settings, { onRepetition });
    spool.finish();
    const raw = sensors.map((sensor) => sensor.raw_sha256);
    await print(text, {
      analysis,
      repetitions: spool.index.lengths.length > 0 ? spooledResults(spool.index) : analysis.repetitions,
      sensors,
      faults: [...faults, ...analysis.faults],
      course,
      provenance: provenanceOf(analysis, settings, raw),
    });
  } finally {
    for (const sensor of sensors) sensor.spool?.close(false);
    spool.clear();
  }
  return EXIT.done;
}

async function print(text: Record<string, string | undefined>, output: AnalyzeOutput): Promise<void> {
  if (text.out !== undefined) {
    const written = await writeOutputFiles(text.out, outputFiles(output));
    if (text.format === undefined) process.stdout.write(`${written.join('\n')}\n`);
  }
  if (text.format === 'json')
    process.stdout.write(`${JSON.stringify(tellAll(jsonOutput(output), FILE_SPEECH), null, 2)}\n`);
  if (text.format === 'table' || (text.format === undefined && text.out === undefined)) {
    process.stdout.write(contactTable(output));
  }
  for (const { code, message } of output.faults.map(terminalSpeech().tell)) {
    process.stderr.write(`note, ${code}: ${message}\n`);
  }
}

function courseOfOptions(options: OptionValues): Course {
  const text = options as Record<string, string | undefined>;
  const course: Course = {
    ...UNKNOWN_COURSE,
    distance_m: text.course === undefined ? null : parseDistance(text.course),
    time_s: text.time === undefined ? null : parseTime(text.time),
    splits: parseSplits((options.split as string[] | undefined) ?? []),
    clock: (text.clock as ClockStart | undefined) ?? 'first_movement',
    belt_speed_mps: text['belt-speed'] === undefined ? null : parseSpeed(text['belt-speed']),
  };
  if (course.time_s !== null && course.distance_m === null) {
    throw new FaultError(fault('OPTION_MISSING.course', {}, { option: '--course' }));
  }
  return course;
}

function sensorFiles({ left, right, file }: Record<string, string | undefined>): SensorFile[] {
  const files: SensorFile[] = [];
  if (file !== undefined && (left ?? right) !== undefined)
    throw new FaultError(fault('OPTION_UNREADABLE.both_feet', {}, { option: '--file' }));
  if (file !== undefined) return [{ side: null, ...openInputFile(file) }];
  if (left !== undefined) files.push({ side: 'left', ...openInputFile(left) });
  if (right !== undefined) files.push({ side: 'right', ...openInputFile(right) });
  if (files.length > 0) return files;
  throw new FaultError(fault('OPTION_MISSING.files', {}, { option: '--left' }));
}

function jsonOutput({ analysis, repetitions, faults, provenance }: AnalyzeOutput) {
  return {
    repetitions: [...repetitions],
    other_activity: analysis.other_activity,
    quality: analysis.quality,
    faults,
    provenance,
  };
}
