import { resolve } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';
import { type AgreementStudy, REFERENCE_CLOCKS } from '../../shared/schemas/agreement.ts';
import { RUN_KINDS, type RunKind } from '../../shared/schemas/archive.ts';
import { JUDGEMENT_WORDS } from '../../shared/messages/judgement-languages.ts';
import { studyTable } from '../agreement/study-words.ts';
import type { ArchiveClient } from '../archive/connect.ts';
import { collectExport } from '../archive/work/collect-export.ts';
import { collectStudy } from '../archive/work/collect-study.ts';
import { EXPORT_FORMATS, type WantedExport } from '../archive/work/do-export.ts';
import { readReferences } from '../archive/work/read-references.ts';
import { findRun } from '../archive/work/run-report.ts';
import type { StartedRun } from '../archive/work/runs.ts';
import { startAgreement, startExport, startRun } from '../archive/work/start-runs.ts';
import { folderSink } from '../export/sink.ts';
import { neededOption, type OptionDefinition, type OptionValues, wholeNumber } from './command.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { readJsonFile } from './input-files.ts';
import { terminalSpeech } from './speech.ts';
import { writeStudy } from './write-study.ts';

const PEOPLE_A_JOB = 20;

/** What is asked of workers, and where what they made goes. */
export const START_OPTIONS = {
  kind: { value: 'KIND', words: RUN_KINDS, help: 'start: what is asked for; reanalysis without it' },
  settings: { value: 'FILE', help: 'start: JSON with analysis settings that differ from the defaults' },
  club: { value: 'NAME', help: 'start: only this club' },
  from: { value: 'YYYY-MM-DD', help: 'start: only sessions from this day on' },
  to: { value: 'YYYY-MM-DD', help: 'start: only sessions up to this day' },
  list: {
    value: 'FILE',
    help: 'start, agreement: CSV with repetition (its identifier), reference (a file), recording',
  },
  'reference-clock': {
    value: 'WORD',
    words: REFERENCE_CLOCKS,
    help: "start, agreement: file (without it), the sensor file's clock; or unrelated, found from the steps",
  },
  format: { value: 'FORMAT', words: EXPORT_FORMATS, help: 'start, export: csv (without it) or parquet' },
  'people-a-job': { value: 'NUMBER', help: `start, export: people of a club a job; ${PEOPLE_A_JOB} without it` },
  out: { value: 'DIR', help: 'collect: a new or empty folder' },
} satisfies Record<string, OptionDefinition>;

export async function runStart(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const kind = (options.kind as RunKind | undefined) ?? 'reanalysis';
  const { run_id, total } = await STARTS[kind](client, options);
  process.stdout.write(`${run_id}: ${total} ${kind === 'export' ? 'parts' : 'repetitions'}\n`);
  return EXIT.done;
}

const selectionOf = ({ club, from, to }: OptionValues) => ({ club, from, to }) as Record<string, string | undefined>;

async function settingsOf({ settings }: OptionValues): Promise<unknown> {
  return settings === undefined ? undefined : readJsonFile(settings as string);
}

const STARTS: Record<RunKind, (client: ArchiveClient, options: OptionValues) => Promise<StartedRun>> = {
  reanalysis: async (client, options) => startRun(client, selectionOf(options), await settingsOf(options)),
  agreement: async (client, options) => {
    const list = resolve(neededOption(options, 'work start --kind agreement', 'list', 'FILE'));
    const reference_clock = (options['reference-clock'] as AgreementStudy['reference_clock'] | undefined) ?? 'file';
    return startAgreement(client, readReferences(list), { reference_clock }, await settingsOf(options));
  },
  export: (client, options) =>
    startExport(client, selectionOf(options), {
      format: (options.format as WantedExport['format'] | undefined) ?? 'csv',
      people_a_job: wholeNumber(options, 'people-a-job', PEOPLE_A_JOB),
    }),
};

/** Writes what a run's workers made, put together. */
export async function runCollect(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const sink = folderSink(resolve(neededOption(options, 'work collect', 'out', 'DIR')));
  const { run_id, kind, done, total } = await findRun(client, options.run as string | undefined);
  if (kind === 'reanalysis') throw new FaultError(fault('RUN_KIND_DIFFERS', { run: run_id }, { run: run_id }));
  if (kind === 'export') {
    const rows = await collectExport(client, run_id, sink);
    const told = Object.entries(rows).map(([table, n]) => `${n} ${table}`);
    process.stdout.write(`${told.join(', ')}\n`);
    return EXIT.done;
  }
  const study = await collectStudy(client, run_id);
  process.stdout.write(
    `${studyTable(study, JUDGEMENT_WORDS[terminalSpeech().language])}${done < total ? `${total - done} of ${total} repetitions are not in it\n` : ''}`,
  );
  await writeStudy(sink, study);
  return EXIT.done;
}
