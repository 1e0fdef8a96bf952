import { FaultError, fault } from '../../shared/fault.ts';
import type { ArchiveClient } from '../archive/connect.ts';
import { changesOfRun, failuresOf, findRun, listRuns, sharesOf } from '../archive/work/run-report.ts';
import { acceptRun, dropRun, retryRun } from '../archive/work/runs.ts';
import { work } from '../archive/work/worker.ts';
import { runCollect, runStart, START_OPTIONS } from './work-runs.ts';
import { ARCHIVE_OPTION, archiveAddress } from './archive-address.ts';
import { changeTable } from './change-table.ts';
import type { Command, OptionValues } from './command.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { terminalSpeech } from './speech.ts';
import { withArchive } from '../archive/with-archive.ts';

type Action = (client: ArchiveClient, options: OptionValues) => Promise<ExitCode>;

const ACTIONS: Record<string, Action> = {
  start: runStart,
  status: runStatus,
  retry: runRetry,
  accept: (client, options) => runAccept(client, options, true),
  'take-back': (client, options) => runAccept(client, options, false),
  collect: runCollect,
  drop: runDrop,
};

export const workCommand: Command = {
  name: 'work',
  summary:
    'A worker of an archive: re-analyses, agreement studies and exports, beside any number of others on any machines.',
  operands: '[start|status|retry|accept|take-back|collect|drop]',
  options: {
    archive: ARCHIVE_OPTION,
    'until-done': { help: 'ends when nothing is left to do; without it the worker waits for more' },
    ...START_OPTIONS,
    run: { value: 'ID', help: 'which run, by the beginning of its identifier; the newest without it' },
  },
  details:
    'Without a word: works. A worker that is killed loses nothing: another one does its job again, and one result counts.\n' +
    'start      asks for a selection to be analysed again, old results staying beside the new ones; with --kind agreement for a study of a\n' +
    '           list of repetitions and references, with --kind export for tables of everybody in the selection\n' +
    'status     how far it is, what failed and why, the rate of each worker, and how figures changed\n' +
    'retry      has those that failed done again\n' +
    'accept     shows the new results of a re-analysis from now on, in the archive and, with their next pull, in the clubs\n' +
    'take-back  shows the old ones again\n' +
    'collect    writes an agreement study or an export, put together, to --out\n' +
    'drop       takes a study or an export out of the archive once it is collected',
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

async function runStatus(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const runs = await listRuns(client);
  for (const { run_id, kind, created_utc, total, waiting, working, done, failed, accepted_utc } of runs) {
    const shown = accepted_utc === null ? '' : ', accepted';
    process.stdout.write(
      `${run_id}  ${kind}  ${created_utc.slice(0, 16).replace('T', ' ')}  ${done} of ${total} done, ${working} under way, ${waiting} waiting, ${failed} failed${shown}\n`,
    );
  }
  if (runs.length === 0) return EXIT.done;
  const { run_id, kind } = await findRun(client, options.run as string | undefined);
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
  if (kind === 'reanalysis') process.stdout.write(changeTable(await changesOfRun(client, run_id)));
  return EXIT.done;
}

async function runRetry(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const { run_id } = await findRun(client, options.run as string | undefined);
  process.stdout.write(`${await retryRun(client, run_id)} repetitions are done again\n`);
  return EXIT.done;
}

async function runDrop(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const { run_id } = await findRun(client, options.run as string | undefined);
  await dropRun(client, run_id);
  process.stdout.write(`${run_id} is no longer in the archive\n`);
  return EXIT.done;
}

async function runAccept(client: ArchiveClient, options: OptionValues, accept: boolean): Promise<ExitCode> {
  const { run_id } = await findRun(client, options.run as string | undefined);
  const changed = await acceptRun(client, run_id, accept);
  process.stdout.write(`${changed} repetitions show ${accept ? 'the new' : 'the earlier'} results from now on\n`);
  return EXIT.done;
}
