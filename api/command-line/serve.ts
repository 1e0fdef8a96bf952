import { execFile, spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { promisify } from 'node:util';
import { loadDemo } from '../../seeds/load-demo.ts';
import { RADIO_LIBRARIES, type RadioLibrary } from '../../ingest/ble/sources/machine/machine-radio.ts';
import { fault, FaultError } from '../../shared/fault.ts';
import { DEFAULT_PORT } from '../server/ports.ts';
import { type RunningServer, startServer } from '../server/server.ts';
import { sendByItself } from '../archive/send-by-itself.ts';
import { scheduleBackups } from '../backup/backup-schedule.ts';
import { ARCHIVE_OPTION } from './archive-address.ts';
import { type Command, type OptionValues, wholeNumber } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';
import { printFault } from './print-fault.ts';
import { PASSPHRASE_OPTION, passphraseOf } from './passphrase.ts';
import { clientOf } from './api-client.ts';
import { LISTEN_OPTIONS, listenOptions, tellNetwork, untilStopped } from './listen-options.ts';

const BACKUP_HOURS = 24;
const BACKUPS_KEPT = 14;
const ARCHIVE_MINUTES = 15;

export const serveCommand: Command = {
  name: 'serve',
  summary: 'The view and the API in a browser, on this machine only unless --host says otherwise.',
  options: {
    port: { value: 'NUMBER', help: `port to listen on; ${DEFAULT_PORT} without it, 0 for a free one` },
    ...LISTEN_OPTIONS,
    backups: { value: 'DIR', help: 'makes a backup there by itself, sealed where a passphrase is given' },
    'backup-hours': { value: 'NUMBER', help: `hours between two backups; ${BACKUP_HOURS} without it` },
    'backup-keep': { value: 'NUMBER', help: `backups kept; ${BACKUPS_KEPT} without it` },
    'backup-without-packets': { help: 'leaves the raw packet logs of live captures out of these backups' },
    archive: {
      ...ARCHIVE_OPTION,
      help: `sends to a programme's archive by itself, whenever there is a network: ${ARCHIVE_OPTION.help}`,
    },
    'archive-minutes': { value: 'NUMBER', help: `minutes between two sendings; ${ARCHIVE_MINUTES} without it` },
    'passphrase-file': PASSPHRASE_OPTION,
    radio: {
      value: 'NAME',
      help: `library by which this machine reaches sensors: ${RADIO_LIBRARIES.join(' or ')}; ${RADIO_LIBRARIES[0]} without it`,
    },
    data: DATA_OPTION,
    demo: { help: 'loads the demo club when the database is new' },
    open: { help: 'opens the address in the browser of this machine' },
    log: { help: 'prints every request' },
  },
  details:
    'On this machine there is no log-in; devices on the network are paired with a code. Stop it with Ctrl+C; nothing is lost.',
  run: async (options) => {
    // What the server writes, its owner alone may read.
    process.umask(0o077);
    const server = await startServer({
      data_folder: dataFolder(options),
      ...listenOptions(options, DEFAULT_PORT),
      log: options.log === true,
      radio: radioLibrary(options.radio as string | undefined),
    });
    process.stdout.write(`Cinderlane is at ${server.address}\n`);
    if (server.store.read_only !== null) printFault(server.store.read_only);
    const stopBackups = startBackups(options);
    const stopSending = startSending(options);
    await tellNetwork(server.access);
    if (options.open === true) openInBrowser(server.address);
    const stopping = new AbortController();
    const stopped = untilStopped().then(() => stopping.abort());
    if (options.demo === true && server.store.read_only === null) await loadDemoWhenNew(server, stopping.signal);
    await stopped;
    stopBackups();
    await stopSending();
    await server.close();
    return EXIT.done;
  },
};

/** Backups by a process of their own: what takes the copy takes nothing from the server. */
function startBackups(options: OptionValues): () => void {
  const folder = options.backups as string | undefined;
  if (folder === undefined) return () => {};
  const passphrase = passphraseOf(options);
  return scheduleBackups({
    folder: resolve(folder),
    every_hours: wholeNumber(options, 'backup-hours', BACKUP_HOURS),
    keep: wholeNumber(options, 'backup-keep', BACKUPS_KEPT),
    sealed: passphrase !== null,
    make: async (file) => {
      const words = [process.argv[1], 'backup', '--out', file, '--data', dataFolder(options)];
      if (options['backup-without-packets'] === true) words.push('--without-packets');
      const env = { ...process.env, ...(passphrase === null ? {} : { CINDERLANE_PASSPHRASE: passphrase }) };
      await promisify(execFile)(process.execPath, words, { env });
    },
    tellFailure: (error) => process.stderr.write(`backup: ${error instanceof Error ? error.message : error}\n`),
  });
}

/** Sending by a process of its own, as `archive push` does it by hand; only where it is asked for. */
function startSending(options: OptionValues): () => Promise<void> {
  const address = options.archive as string | undefined;
  if (address === undefined) return async () => {};
  const passphrase = passphraseOf(options);
  const env = {
    ...process.env,
    CINDERLANE_ARCHIVE: address,
    ...(passphrase === null ? {} : { CINDERLANE_PASSPHRASE: passphrase }),
  };
  return sendByItself({
    every_minutes: wholeNumber(options, 'archive-minutes', ARCHIVE_MINUTES),
    send: async (signal) => {
      const words = [process.argv[1], 'archive', 'push', '--data', dataFolder(options)];
      try {
        await promisify(execFile)(process.execPath, words, { env, signal });
      } catch (error) {
        const told = (error as { stderr?: string }).stderr?.trim().split('\n')[0];
        throw told ? new Error(told) : error;
      }
    },
    tell: (line) => void process.stderr.write(`${line}\n`),
  });
}

function radioLibrary(text: string | undefined): RadioLibrary | undefined {
  if (text === undefined) return undefined;
  const known = RADIO_LIBRARIES.find((name) => name === text);
  if (known !== undefined) return known;
  const words = [...RADIO_LIBRARIES];
  throw new FaultError(
    fault('OPTION_UNREADABLE.word', { field: '--radio', text, words }, { option: '--radio', value: text }),
  );
}

/** The demo goes into a new database only, through the API like anybody's data; the server can be used meanwhile. */
async function loadDemoWhenNew(server: RunningServer, signal: AbortSignal): Promise<void> {
  const { n } = server.store.prepare('SELECT count(*) AS n FROM athletes').get() as { n: number };
  if (n > 0) return;
  let shown = -1;
  const onProgress = (done: number, total: number) => {
    server.demo.tell(done, total);
    const tenth = Math.floor((10 * done) / total);
    if (tenth > shown) process.stdout.write(`demo club: ${done} of ${total} repetitions\n`);
    shown = Math.max(shown, tenth);
  };
  try {
    const { failed } = await loadDemo(clientOf(server.address), { signal, onProgress });
    for (const reason of failed) process.stderr.write(`demo club: ${reason}\n`);
  } catch (error) {
    if (!signal.aborted) process.stderr.write(`demo club: ${error instanceof Error ? error.message : error}\n`);
  } finally {
    server.demo.ended();
  }
}

/** Opens the machine's browser where there is one; the address is printed anyway. */
function openInBrowser(address: string): void {
  const commands: Record<string, [string, string[]]> = {
    darwin: ['open', [address]],
    win32: ['cmd', ['/c', 'start', '', address]],
  };
  const [command, words] = commands[process.platform] ?? ['xdg-open', [address]];
  spawn(command, words, { stdio: 'ignore', detached: true })
    .on('error', () => {})
    .unref();
}
