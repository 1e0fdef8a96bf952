import { spawn } from 'node:child_process';
import { networkInterfaces } from 'node:os';
import { loadDemo } from '../../seeds/load-demo.ts';
import { FaultError } from '../../shared/fault.ts';
import { startHttpsFront } from '../server/https-front.ts';
import { DEFAULT_PORT, type RunningServer, startServer } from '../server/server.ts';
import type { Command } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';
import { clientOf } from './with-api.ts';

export const serveCommand: Command = {
  name: 'serve',
  summary: 'The view and the API in a browser, on this machine only unless --host says otherwise.',
  options: {
    port: { value: 'NUMBER', help: `port to listen on; ${DEFAULT_PORT} without it, 0 for a free one` },
    host: { value: 'NAME', help: '127.0.0.1 without it; 0.0.0.0 opens it to the local network' },
    'https-port': {
      value: 'NUMBER',
      help: 'also listens here by https, so that phones can hold the sensors; needs the two below',
    },
    'tls-cert': { value: 'FILE', help: 'certificate for https, PEM' },
    'tls-key': { value: 'FILE', help: 'key of that certificate, PEM' },
    data: DATA_OPTION,
    demo: { help: 'loads the demo club when the database is new' },
    open: { help: 'opens the address in the browser of this machine' },
    log: { help: 'prints every request' },
  },
  details: 'There is no log-in: open it to networks you trust only. Stop it with Ctrl+C; nothing is lost.',
  run: async (options) => {
    const port = options.port === undefined ? DEFAULT_PORT : readPort(options.port as string);
    const server = await startServer({
      data_folder: dataFolder(options),
      host: (options.host as string | undefined) ?? '127.0.0.1',
      port,
      log: options.log === true,
    });
    process.stdout.write(`Cinderlane is at ${server.address}\n`);
    for (const address of networkAddresses(options.host as string | undefined, server.address)) {
      process.stdout.write(`for phones and tablets on this network: ${address}\n`);
    }
    const front = await httpsFront(options, server);
    if (options.open === true) openInBrowser(server.address);
    const stopping = new AbortController();
    const stopped = new Promise<void>((resolve) => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
    }).then(() => stopping.abort());
    if (options.demo === true) await loadDemoWhenNew(server, stopping.signal);
    await stopped;
    await front?.close();
    await server.close();
    return EXIT.done;
  },
};

/** The https way in, where it is asked for. */
async function httpsFront(options: Record<string, unknown>, server: RunningServer) {
  const port = options['https-port'] as string | undefined;
  if (port === undefined) return null;
  const [cert_file, key_file] = [options['tls-cert'], options['tls-key']] as (string | undefined)[];
  if (cert_file === undefined || key_file === undefined) {
    await server.close();
    throw new FaultError({
      code: 'OPTION_MISSING',
      message: '--https-port needs --tls-cert and --tls-key. The server was not started.',
      where: { option: '--https-port' },
      hint: 'DEVELOPERS.md shows how to make a certificate for your own network.',
    });
  }
  const host = (options.host as string | undefined) ?? '127.0.0.1';
  try {
    const target_port = Number(new URL(server.address).port);
    const front = await startHttpsFront({
      host,
      port: readPort(port, '--https-port'),
      cert_file,
      key_file,
      target_port,
    });
    process.stdout.write(
      `by https: ${['localhost', ...networkHosts(host)].map((name) => `https://${name}:${front.port}`).join(' ')}\n`,
    );
    return front;
  } catch (error) {
    await server.close();
    throw error;
  }
}

function readPort(text: string, option = '--port'): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65535) return port;
  throw new FaultError({
    code: 'OPTION_UNREADABLE',
    message: `${option} is "${text}"; it must be a whole number from 0 to 65535. Nothing was done.`,
    where: { option, value: text },
    hint: `Leave it out for ${DEFAULT_PORT}.`,
  });
}

/** Addresses of this machine for others, when the server listens to them; none otherwise. */
function networkAddresses(host: string | undefined, address: string): string[] {
  const { port } = new URL(address);
  return networkHosts(host).map((name) => `http://${name}:${port}`);
}

function networkHosts(host: string | undefined): string[] {
  if (host !== '0.0.0.0' && host !== '::') return [];
  return Object.values(networkInterfaces())
    .flatMap((entries) => entries ?? [])
    .filter((entry) => entry.family === 'IPv4' && !entry.internal)
    .map((entry) => entry.address);
}

/** The demo goes into a new database only, through the API like anybody's data; the server can be used meanwhile. */
async function loadDemoWhenNew(server: RunningServer, signal: AbortSignal): Promise<void> {
  const { n } = server.store.prepare('SELECT count(*) AS n FROM athletes').get() as { n: number };
  if (n > 0) return;
  let shown = -1;
  const onProgress = (done: number, total: number) => {
    const tenth = Math.floor((10 * done) / total);
    if (tenth > shown) process.stdout.write(`demo club: ${done} of ${total} repetitions\n`);
    shown = Math.max(shown, tenth);
  };
  try {
    const { failed } = await loadDemo(clientOf(server.address), { signal, onProgress });
    for (const reason of failed) process.stderr.write(`demo club: ${reason}\n`);
  } catch (error) {
    if (!signal.aborted) process.stderr.write(`demo club: ${error instanceof Error ? error.message : error}\n`);
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
