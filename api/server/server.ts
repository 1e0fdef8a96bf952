import { hostname } from 'node:os';
import { join, resolve } from 'node:path';
import type { FastifyInstance } from 'fastify';
import type { RadioLibrary } from '../../ingest/ble/sources/machine/machine-radio.ts';
import { fault, FaultError } from '../../shared/fault.ts';
import { AccessService } from '../access/access-service.ts';
import { lanCertificate } from '../access/certificates.ts';
import { lanAddresses } from '../access/lan-addresses.ts';
import { openStore } from '../store/open-store.ts';
import type { OpenedStore } from '../store/opened-store.ts';
import type { Store } from '../store/store.ts';
import { unpackFiles } from '../store/packed-files.ts';
import { buildApp } from './app.ts';
import { DemoLoading } from '../http/demo-loading.ts';
import { ErrorLog } from './error-log.ts';
import { holdFolder } from './hold-folder.ts';
import { listenByHttps } from './https-listener.ts';
import { limitConnections } from './limit-connections.ts';
import { readCertificate } from './read-certificate.ts';
import { DATABASE_NAME, findRunningServer, markServer, unmarkServer } from './running-server.ts';
import { startFault } from './start-fault.ts';
import { tightenFolder } from './tighten-folder.ts';

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
  /** By which library the radio of this machine is reached. */
  radio?: RadioLibrary;
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
 * Opens the store and listens. Closing the answer closes both. Whoever asks from another machine must be paired. A database that cannot
 * be written is served for reading only (`store.read_only` says why).
 * @throws FaultError SERVER_RUNNING when another server works on the folder, FOLDER_NOT_WRITABLE, DISK_FULL, DATABASE_UNREADABLE, READ_ONLY
 * where not even a copy can be read, SERVER_PORT_TAKEN, OPTION_UNREADABLE, FILE_NOT_FOUND, CERTIFICATE_UNREADABLE, INTERNAL
 */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const dataFolder = resolve(options.data_folder);
  const running = await findRunningServer(dataFolder);
  if (running) {
    const where = { folder: dataFolder, address: running };
    throw new FaultError(fault('SERVER_RUNNING', where, where));
  }
  const held = holdFolder(dataFolder, DATABASE_NAME);
  const error_log = new ErrorLog(join(dataFolder, 'errors.log'));
  let opened: OpenedStore | null = null;
  try {
    tightenFolder(dataFolder);
    opened = openStore(join(dataFolder, DATABASE_NAME), held.blocked);
    // A backup that was put in the place of the database by hand, or a restoration that was killed.
    if (opened.store.read_only === null) unpackFiles(opened.store.database, dataFolder);
    return await listen(options, dataFolder, opened, error_log, held.giveBack);
  } catch (error) {
    opened?.close();
    held.giveBack();
    throw startFault(error, options, dataFolder, error_log);
  }
}

async function listen(
  { host = '127.0.0.1', port = DEFAULT_PORT, web_folder, log = false, https, radio }: ServerOptions,
  dataFolder: string,
  opened: OpenedStore,
  error_log: ErrorLog,
  giveBack: () => void,
): Promise<RunningServer> {
  const { store } = opened;
  const access = new AccessService();
  const demo = new DemoLoading();
  const names = [host, hostname(), `${hostname()}.local`];
  const app = await buildApp({ store, host_names: names, web_folder, log, access, demo, error_log, radio });
  limitConnections(app.server);
  let stopHttps = async () => {};
  const stop = async () => {
    await stopHttps();
    await app.close();
  };
  try {
    const address = await app.listen({ host, port });
    if (store.read_only === null) markServer(dataFolder, { address, instance: store.instance });
    if (host === EVERY_ADDRESS) {
      const listening = new URL(address).port;
      access.place.addresses = lanAddresses().map((name) => `http://${name}:${listening}`);
    }
    if (https) stopHttps = await startHttps(app, access, dataFolder, https, store.read_only !== null);
    const close = async () => {
      unmarkServer(dataFolder, store.instance);
      await stop();
      opened.close();
      giveBack();
    };
    return { app, store, access, demo, address, close };
  } catch (error) {
    unmarkServer(dataFolder, store.instance);
    await stop();
    throw error;
  }
}

async function startHttps(
  app: FastifyInstance,
  access: AccessService,
  dataFolder: string,
  { host, port, files }: HttpsOptions,
  read_only: boolean,
): Promise<() => Promise<void>> {
  const addresses = host === EVERY_ADDRESS ? lanAddresses() : [host];
  const name = `${hostname().replace(/\.local$/, '')}.local`.toLowerCase();
  let pair: { cert: string | Buffer; key: string | Buffer };
  if (files) pair = readCertificate(files.cert_file, files.key_file);
  else {
    const own = await lanCertificate(join(dataFolder, 'tls'), [...addresses, name]).catch((error: unknown) => {
      // A new certificate cannot be kept: this machine can still look.
      if (read_only) return null;
      throw error;
    });
    if (own === null) return async () => {};
    pair = own;
    access.place.ca_pem = own.authority;
    access.place.ca_fingerprint = own.fingerprint;
  }
  const listener = await listenByHttps(app, { host, port, ...pair });
  access.place.addresses = addresses.map((address) => `https://${address}:${listener.port}`);
  return listener.close;
}
