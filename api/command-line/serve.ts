import { execFile, spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { promisify } from 'node:util';
import { loadDemo } from '../../seeds/load-demo.ts';
import { RADIO_LIBRARIES, type RadioLibrary } from '../../ingest/ble/sources/machine/machine-radio.ts';
import { fault, FaultError } from '../../shared/fault.ts';
import {
  DEFAULT_HTTPS_PORT,
  DEFAULT_PORT,
  type HttpsOptions,
  type RunningServer,
  startServer,
} from '../server/server.ts';
import { sendByItself } from '../archive/send-by-itself.ts';
import { scheduleBackups } from '../backup/backup-schedule.ts';
import { ARCHIVE_OPTION } from './archive-address.ts';
import type { Command, OptionValues } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';
import { printFault } from './print-fault.ts';
import { PASSPHRASE_OPTION, passphraseOf } from './passphrase.ts';
import { clientOf } from './api-client.ts';

const BACKUP_HOURS = 24;
const BACKUPS_KEPT = 14;
const ARCHIVE_MINUTES = 15;

export const serveCommand: Command = {
  name: 'serve',
  summary: 'The view and the API in a browser, on this machine only unless --host says otherwise.',
  options: {
    port: { value: 'NUMBER', help: `port to listen on; ${DEFAULT_PORT} without it, 0 for a free one` },
    host: {
      value: 'NAME',
      help: '127.0.0.1 without it; 0.0.0.0 opens it to the local network without encryption, for paired devices',
    },
    lan: { help: 'opens it to the local network by https, for paired devices only; makes its certificate itself' },
    'https-port': { value: 'NUMBER', help: `port of https; ${DEFAULT_HTTPS_PORT} without it` },
    'tls-cert': { value: 'FILE', help: "a certificate of one's own for https, PEM" },
    'tls-key': { value: 'FILE', help: 'key of that certificate, PEM' },
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
    const port = readPort(options.port as string | undefined, '--port', DEFAULT_PORT);
    const server = await startServer({
      data_folder: dataFolder(options),
      host: (options.host as string | undefined) ?? '127.0.0.1',
      port,
      https: httpsOptions(options),
      log: options.log === true,
      radio: radioLibrary(options.radio as string | undefined),
    });
    process.stdout.write(`Cinderlane is at ${server.address}\n`);
    if (server.store.read_only !== null) printFault(server.store.read_only);
    const stopBackups = startBackups(options);
    const stopSending = startSending(options);
    await tellNetwork(server);
    if (options.open === true) openInBrowser(server.address);
    const stopping = new AbortController();
    const stopped = new Promise<void>((resolve) => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
    }).then(() => stopping.abort());
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

function wholeNumber(options: OptionValues, name: string, usual: number): number {
  const text = options[name] as string | undefined;
  if (text === undefined) return usual;
  if (/^\d{1,5}$/.test(text) && Number(text) >= 1 && Number(text) <= 10_000) return Number(text);
  const option = `--${name}`;
  throw new FaultError(fault('OPTION_UNREADABLE.whole_number', { option, text }, { option, value: text }));
}

/** How https is asked for: `--lan` alone, or a port of one's own with or without a certificate of one's own. */
function httpsOptions(options: Record<string, unknown>): HttpsOptions | undefined {
  const [cert_file, key_file] = [options['tls-cert'], options['tls-key']] as (string | undefined)[];
  const wanted = options.lan === true || options['https-port'] !== undefined;
  if ((cert_file === undefined) !== (key_file === undefined) || (cert_file !== undefined && !wanted)) {
    throw new FaultError(fault('OPTION_MISSING.certificate', {}, { option: '--tls-cert' }));
  }
  if (!wanted) return undefined;
  return {
    host: options.lan === true ? '0.0.0.0' : ((options.host as string | undefined) ?? '127.0.0.1'),
    port: readPort(options['https-port'] as string | undefined, '--https-port', DEFAULT_HTTPS_PORT),
    files: cert_file !== undefined && key_file !== undefined ? { cert_file, key_file } : undefined,
  };
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

function readPort(text: string | undefined, option: string, usual: number): number {
  if (text === undefined) return usual;
  const port = Number(text);
  if (/^\d{1,5}$/.test(text) && port <= 65535) return port;
  throw new FaultError(fault('OPTION_UNREADABLE.port', { option, text, usual }, { option, value: text }));
}

/** Prints where other devices find the server, and the first pairing code with its QR code. */
async function tellNetwork({ access }: RunningServer): Promise<void> {
  const { addresses, ca_fingerprint } = access.place;
  if (addresses.length === 0) return;
  process.stdout.write(`for paired phones and tablets on this network: ${addresses.join(' ')}\n`);
  if (ca_fingerprint) {
    process.stdout.write(`certificate authority of this machine, SHA-256 ${ca_fingerprint}\n`);
    process.stdout.write(`how a phone trusts it: ${addresses[0]}/#/trust\n`);
  }
  process.stdout.write(await access.issueForTerminal('coach'));
  process.stdout.write('further codes, and the list of devices: the page "Devices" on this machine\n');
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
