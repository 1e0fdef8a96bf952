import { terminalSpeech } from './speech.ts';
import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import { MOUNTINGS, type Mounting, type Side } from '../../shared/words.ts';
import { motionBidsLines } from '../export/motion-bids/import-lines.ts';
import type { Command, OptionValues } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { readImportFolder } from './import-folder.ts';
import { FORM_COLUMNS, readImportList } from './import-list.ts';
import type { ImportLine } from '../export/motion-bids/import-line.ts';
import { type ImportEnd, importOne, PlaceFinder } from './import-one.ts';
import type { ApiClient } from './api-client.ts';
import { withApi } from './with-api.ts';

export const importCommand: Command = {
  name: 'import',
  summary: 'Sensor files into the database, one repetition by options or many by a list.',
  options: {
    left: { value: 'FILE', help: 'CSV of the left sensor, plain or gzip' },
    right: { value: 'FILE', help: 'CSV of the right sensor' },
    file: { value: 'FILE', help: 'one CSV that holds both sides' },
    athlete: { value: 'NAME', help: 'whose it is; made when there is none of this name' },
    date: { value: 'YYYY-MM-DD', help: "day of the session; the athlete's session of that day is used or made" },
    mount: { value: 'foot|shank', words: MOUNTINGS, help: 'where the sensors sit' },
    effort: { value: 'PERCENT', help: "per cent of the athlete's full speed" },
    course: { value: 'DISTANCE', help: 'length of the course with its unit: 40yd' },
    time: { value: 'TIME', help: 'time over the course: 5.21s' },
    split: { value: 'DISTANCE=TIME', multiple: true, help: 'time at a distance: 10m=2.103s' },
    'belt-speed': { value: 'SPEED', help: 'speed of a treadmill: 3.55mps' },
    rate: { value: 'RATE', help: 'sampling rate where the file has no time: 500hz' },
    list: {
      value: 'FILE',
      help: `CSV with a line a repetition; columns ${['left', 'right', 'file', ...FORM_COLUMNS].join(', ')}`,
    },
    folder: {
      value: 'DIR',
      help: 'every recording of a folder, for one athlete and day; left and right are told by the names',
    },
    'motion-bids': { value: 'DIR', help: 'a Motion-BIDS data set, ours or of others' },
    point: {
      value: 'NAME=SIDE',
      multiple: true,
      help: 'a tracked point of a Motion-BIDS set to read, with its side: sensor3=left; all are named on the way',
    },
    parallel: { value: 'NUMBER', help: 'imports at a time; as many as there are processors without it' },
    data: DATA_OPTION,
  },
  details: [
    'File names in a list are relative to the list. What was imported before is recognised by its content and not doubled,',
    'so a list or folder that was interrupted is finished by giving it again. Failures are summed up at the end, exit code 1.',
  ].join('\n'),
  run: runImport,
};

async function runImport(options: OptionValues): Promise<ExitCode> {
  const lines = await linesOf(options);
  const parallel = readParallel(options.parallel as string | undefined);
  const ends = await withApi(dataFolder(options), (api) => importAll(api, lines, parallel));
  const failed = ends.filter((end) => end.fault !== null);
  const known = ends.filter((end) => end.known).length;
  process.stdout.write(
    `${ends.length - failed.length - known} imported, ${known} known before, ${failed.length} failed\n`,
  );
  if (failed.length === 0) return EXIT.done;
  process.stderr.write(failureSummary(failed.map((end) => ({ line: end.line, fault: end.fault! }))));
  return lines.length === 1 ? EXIT.inputRefused : EXIT.failed;
}

/** One import by options, or many by a list or a data set. */
async function linesOf(options: OptionValues): Promise<ImportLine[]> {
  if (options['motion-bids'] !== undefined) {
    return motionBidsLines(resolve(options['motion-bids'] as string), {
      points: pointsOf((options.point as string[] | undefined) ?? []),
      mounting: options.mount as Mounting | undefined,
      onLeftOut: (why) => {
        const { code, message, hint } = terminalSpeech().tell(why.toFault());
        process.stderr.write(`note, ${code}: ${message} ${hint}\n`);
      },
    });
  }
  if (options.folder !== undefined) {
    return readImportFolder(resolve(options.folder as string), lineOfOptions(options));
  }
  return options.list === undefined ? [lineOfOptions(options)] : readImportList(options.list as string);
}

async function importAll(api: ApiClient, lines: ImportLine[], parallel: number): Promise<ImportEnd[]> {
  const places = new PlaceFinder(api);
  const ends: ImportEnd[] = [];
  let next = 0;
  const work = async () => {
    while (next < lines.length) {
      const line = lines[next++];
      const end = await importOne(api, places, line);
      ends.push(end);
      if (end.repetition_ids.length > 0) {
        process.stdout.write(
          `${line.label}: repetition ${end.repetition_ids.join(', ')}${end.known ? ' (known before)' : ''}\n`,
        );
      }
    }
  };
  await Promise.all(Array.from({ length: Math.min(parallel, lines.length) }, work));
  return ends;
}

/** Failures by their code, each with the lines it hit: what went wrong with many is seen at a glance. */
function failureSummary(failures: { line: ImportLine; fault: Fault }[]): string {
  const say = terminalSpeech();
  const byCode = new Map<string, typeof failures>();
  for (const failure of failures) byCode.set(failure.fault.code, [...(byCode.get(failure.fault.code) ?? []), failure]);
  return [...byCode]
    .sort(([, a], [, b]) => b.length - a.length)
    .flatMap(([code, hits]) => [
      `${hits.length} x ${code}`,
      ...hits.map(({ line, fault }) => `  ${line.label}: ${say.tell(fault).message}`),
      `  ${say.tell(hits[0].fault).hint}`,
    ])
    .map((text) => `${text}\n`)
    .join('');
}

function lineOfOptions(options: OptionValues): ImportLine {
  const text = options as Record<string, string | undefined>;
  for (const name of ['athlete', 'date', 'mount']) {
    if (text[name] !== undefined) continue;
    throw new FaultError(fault('OPTION_MISSING.of_import', { option: `--${name}` }, { option: `--${name}` }));
  }
  const files = { left: text.left, right: text.right, file: text.file };
  return {
    label: Object.values(files).filter(Boolean).join(' + '),
    files,
    athlete: text.athlete!,
    date: text.date!,
    form: {
      mounting: text.mount,
      effort_percent: text.effort,
      course: text.course,
      time: text.time,
      splits: (options.split as string[] | undefined)?.join(','),
      belt_speed: text['belt-speed'],
      rate: text.rate,
    },
  };
}

/** `NAME=left` and `NAME=right`; a point's name may hold anything. */
function pointsOf(texts: string[]): Map<string, Side> {
  return new Map(
    texts.map((text) => {
      const at = text.lastIndexOf('=');
      const side = text.slice(at + 1);
      if (at > 0 && (side === 'left' || side === 'right')) return [text.slice(0, at), side];
      throw new FaultError(fault('OPTION_UNREADABLE.point', { text }, { option: '--point', value: text }));
    }),
  );
}

function readParallel(text: string | undefined): number {
  if (text === undefined) return availableParallelism();
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= 256) return value;
  throw new FaultError(fault('OPTION_UNREADABLE.parallel', { text }, { option: '--parallel', value: text }));
}
