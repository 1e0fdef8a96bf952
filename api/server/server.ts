import { accessSync, constants, mkdirSync } from 'node:fs';
import { hostname } from 'node:os';
import { join, resolve } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { fault, FaultError } from '../../shared/fault.ts';
import { AccessService } from '../access/access-service.ts';
import { lanCertificate } from '../access/certificates.ts';
import { lanAddresses } from '../access/lan-addresses.ts';
import { Store } from '../store/store.ts';
import { buildApp } from './app.ts';
import { DemoLoading } from '../http/demo-loading.ts';
import { ErrorLog } from './error-log.ts';
import { lockFolder } from './folder-lock.ts';
import { listenByHttps } from './https-listener.ts';
import { limitConnections } from './limit-connections.ts';
import { portTaken } from './port-taken.ts';
import { readCertificate } from './read-certificate.ts';
import { DATABASE_NAME, findRunningServer, markServer, unmarkServer } from './running-server.ts';

export const DEFAULT_PORT = 7100;
export const DEFAULT_HTTPS_PORT = 7443;
const EVERY_ADDRESS = '0.0.0.0';

/** How the server is reached by https. */
export interface HttpsOptions {
  port: number;
  /** Address it listens on; 0.0.0.0 for the local network. */
  host: string;
  /** PEM files of one's own; without them the certificate of this machine's own authority. */
  files?: { cert_file: string; key_file: string };
}

export interface ServerOptions {
  /** Folder of the database; made when it is not there. */
  data_folder: string;
  /** Only this machine by default; 0.0.0.0 opens it to the local network, for paired devices. */
  host?: string;
  port?: number;
  https?: HttpsOptions;
  /** Folder of the built view; that of `npm run build` without it. */
  web_folder?: string;
  log?: boolean;
}

export interface RunningServer {
  app: FastifyInstance;
  store: Store;
  access: AccessService;
  demo: DemoLoading;
  address: string;
  close(): Promise<void>;
}

/**
 * Opens the store and listens. Closing the answer closes both. Whoever asks from another machine must be paired.
 * @throws FaultError SERVER_RUNNING when another server works on the folder, FOLDER_NOT_WRITABLE, DATABASE_UNREADABLE, DATABASE_NEWER,
 * SERVER_PORT_TAKEN, FILE_NOT_FOUND, CERTIFICATE_UNREADABLE
 */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { host = '127.0.0.1', port = DEFAULT_PORT, web_folder, log = false } = options;
  const dataFolder = resolve(options.data_folder);
  const running = await findRunningServer(dataFolder);
  if (running) {
    const where = { folder: dataFolder, address: running };
    throw new FaultError(fault('SERVER_RUNNING', where, where));
  }
  makeFolder(dataFolder);
  const giveBack = lockFolder(dataFolder);
  if (giveBack === null)
    throw new FaultError(fault('SERVER_RUNNING.starting', { folder: dataFolder }, { folder: dataFolder }));
  let store: Store;
  try {
    store = Store.open(join(dataFolder, DATABASE_NAME));
  } catch (error) {
    giveBack();
    throw error;
  }
  const access = new AccessService();
  const demo = new DemoLoading();
  const names = [host, hostname(), `${hostname()}.local`];
  const app = await buildApp({
    store,
    host_names: names,
    web_folder,
    log,
    access,
    demo,
    error_log: new ErrorLog(join(dataFolder, 'errors.log')),
  });
  limitConnections(app.server);
  let stopHttps = async () => {};
  const close = async () => {
    unmarkServer(dataFolder, store.instance);
    await stopHttps();
    await app.close();
    store.close();
    giveBack();
  };
  try {
    const address = await app.listen({ host, port });
    markServer(dataFolder, { address, instance: store.instance });
    if (host === EVERY_ADDRESS) {
      const listening = new URL(address).port;
      access.place.addresses = lanAddresses().map((name) => `http://${name}:${listening}`);
    }
    if (options.https) stopHttps = await startHttps(app, access, dataFolder, options.https);
    return { app, store, access, demo, address, close };
  } catch (error) {
    await close();
    throw (error as NodeJS.ErrnoException).code === 'EADDRINUSE' ? portTaken(port, '--port') : error;
  }
}

/** @throws FaultError FOLDER_NOT_WRITABLE */
function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    accessSync(folder, constants.W_OK | constants.X_OK);
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new FaultError(fault('FOLDER_NOT_WRITABLE', { folder, why }, { folder }));
  }
}

async function startHttps(
  app: FastifyInstance,
  access: AccessService,
  dataFolder: string,
  { host, port, files }: HttpsOptions,
): Promise<() => Promise<void>> {
  const addresses = host === EVERY_ADDRESS ? lanAddresses() : [host];
  const name = `${hostname().replace(/\.local$/, '')}.local`.toLowerCase();
  let pair: { cert: string | Buffer; key: string | Buffer };
  if (files) pair = readCertificate(files.cert_file, files.key_file);
  else {
    const own = await lanCertificate(join(dataFolder, 'tls'), [...addresses, name]);
    pair = own;
    access.place.ca_pem = own.authority;
    access.place.ca_fingerprint = own.fingerprint;
  }
  const listener = await listenByHttps(app, { host, port, ...pair });
  access.place.addresses = addresses.map((address) => `https://${address}:${listener.port}`);
  return listener.close;
}
