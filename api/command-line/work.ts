import { FaultError, fault } from '../../shared/fault.ts';
import type { ArchiveClient } from '../archive/connect.ts';
import { changesOfRun, failuresOf, findRun, listRuns, sharesOf } from '../archive/work/run-report.ts';
import { acceptRun, retryRun, startRun } from '../archive/work/runs.ts';
import { work } from '../archive/work/worker.ts';
import { ARCHIVE_OPTION, archiveAddress } from './archive-address.ts';
import { changeTable } from './change-table.ts';
import type { Command, OptionValues } from './command.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { readJsonFile } from './input-files.ts';
import { terminalSpeech } from './speech.ts';
import { withArchive } from './with-archive.ts';

type Action = (client: ArchiveClient, options: OptionValues) => Promise<ExitCode>;

const ACTIONS: Record<string, Action> = {
  start: runStart,
  status: runStatus,
  retry: runRetry,
  accept: (client, options) => runAccept(client, options, true),
  'take-back': (client, options) => runAccept(client, options, false),
};

export const workCommand: Command = {
  name: 'work',
  summary: 'A worker of an archive: analyses stored repetitions again, beside any number of others on any machines.',
  operands: '[start|status|retry|accept|take-back]',
  options: {
    archive: ARCHIVE_OPTION,
    'until-done': { help: 'ends when nothing is left to do; without it the worker waits for more' },
    settings: { value: 'FILE', help: 'start: JSON with analysis settings that differ from the defaults' },
    club: { value: 'NAME', help: 'start: only this club' },
    from: { value: 'YYYY-MM-DD', help: 'start: only sessions from this day on' },
    to: { value: 'YYYY-MM-DD', help: 'start: only sessions up to this day' },
    run: { value: 'ID', help: 'which re-analysis, by the beginning of its identifier; the newest without it' },
  },
  details:
    'Without a word: works. A worker that is killed loses nothing: another one does its job again, and one result counts.\n' +
    'start      asks for a selection to be analysed again; old results stay beside the new ones\n' +
    'status     how far it is, what failed and why, the rate of each worker, and how figures changed\n' +
    'retry      has those that failed done again\n' +
    'accept     shows the new results from now on, in the archive and, with their next pull, in the clubs\n' +
    'take-back  shows the old ones again',
  run: async (options, [action, ...others]) => {
    if (action !== undefined && (others.length > 0 || !Object.hasOwn(ACTIONS, action)))
      throw new FaultError(fault('OPTION_UNREADABLE.action', { found: action, words: Object.keys(ACTIONS) }));
    const run = action === undefined ? runWorker : ACTIONS[action];
    return withArchive(archiveAddress(options, 'work'), (client) => run(client, options));
  },
};

async function runWorker(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const stopping = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stopping.abort());
  const { done, failed } = await work(client, {
    until_done: options['until-done'] === true,
    signal: stopping.signal,
    tell: (line) => void process.stdout.write(`${line}\n`),
  });
  process.stdout.write(`${done} done, ${failed} failed\n`);
  return EXIT.done;
}

async function runStart(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const text = options as Record<string, string | undefined>;
  const settings = text.settings === undefined ? undefined : await readJsonFile(text.settings);
  const { run_id, total } = await startRun(client, { club: text.club, from: text.from, to: text.to }, settings);
  process.stdout.write(`${run_id}: ${total} repetitions\n`);
  return EXIT.done;
}

async function runStatus(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const runs = await listRuns(client);
  for (const { run_id, created_utc, total, waiting, working, done, failed, accepted_utc } of runs) {
    const shown = accepted_utc === null ? '' : ', accepted';
    process.stdout.write(
      `${run_id}  ${created_utc.slice(0, 16).replace('T', ' ')}  ${done} of ${total} done, ${working} under way, ${waiting} waiting, ${failed} failed${shown}\n`,
    );
  }
  if (runs.length === 0) return EXIT.done;
  const { run_id } = await findRun(client, options.run as string | undefined);
  for (const { n, fault } of await failuresOf(client, run_id))
    process.stdout.write(`${n} failed, ${fault.code}: ${terminalSpeech().tell(fault).message}\n`);
  for (const one of await sharesOf(client, run_id)) {
    const rate = one.span_s > 0 ? (one.done / one.span_s).toFixed(2) : '-';
    const seconds = (value: number) => (value / one.done).toFixed(3);
    process.stdout.write(
      `worker ${one.worker_number} on ${one.machine}: ${one.done} in ${one.span_s.toFixed(1)} s, ${rate} a second; a job takes ` +
        `${seconds(one.read_s)} s of reading, ${seconds(one.analysed_s)} s of analysis, ${seconds(one.stored_s)} s of storing\n`,
    );
  }
  process.stdout.write(changeTable(await changesOfRun(client, run_id)));
  return EXIT.done;
}

async function runRetry(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const { run_id } = await findRun(client, options.run as string | undefined);
  process.stdout.write(`${await retryRun(client, run_id)} repetitions are done again\n`);
  return EXIT.done;
}

async function runAccept(client: ArchiveClient, options: OptionValues, accept: boolean): Promise<ExitCode> {
  const { run_id } = await findRun(client, options.run as string | undefined);
  const changed = await acceptRun(client, run_id, accept);
  process.stdout.write(`${changed} repetitions show ${accept ? 'the new' : 'the earlier'} results from now on\n`);
  return EXIT.done;
}
