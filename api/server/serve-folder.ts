import { join, resolve } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { fault, FaultError } from '../../shared/fault.ts';
import { AccessService } from '../access/access-service.ts';
import { openStore } from '../store/open-store.ts';
import type { OpenedStore } from '../store/opened-store.ts';
import { unpackFiles } from '../store/packed-files.ts';
import type { Store } from '../store/store.ts';
import { ErrorLog } from './error-log.ts';
import { holdFolder } from './hold-folder.ts';
import { type HttpsOptions, listen, namesOfMachine } from './listen.ts';
import { DATABASE_NAME, findRunningServer, markServer, unmarkServer } from './running-server.ts';
import { startFault } from './start-fault.ts';
import { tightenFolder } from './tighten-folder.ts';

export interface FolderServerOptions {
  /** Folder of the database; made when it is not there. */
  data_folder: string;
  /** Only this machine by default; 0.0.0.0 opens it to the local network, for paired devices. */
  host?: string;
  port: number;
  https?: HttpsOptions;
  access?: AccessService;
  /** Builds what answers, once the database is open. */
  build(parts: AppParts): Promise<FastifyInstance>;
}

/** What a folder gives the application that serves it. */
export interface AppParts {
  store: Store;
  access: AccessService;
  error_log: ErrorLog;
  host_names: string[];
}

export interface FolderServer {
  app: FastifyInstance;
  store: Store;
  access: AccessService;
  address: string;
  close(): Promise<void>;
}

/**
 * Opens the database of a folder and listens, alone on that folder. Closing the answer closes both. Whoever asks from another machine
 * must be paired. A database that cannot be written is served for reading only (`store.read_only` says why).
 * @throws FaultError SERVER_RUNNING when another server works on the folder, FOLDER_NOT_WRITABLE, DISK_FULL, DATABASE_UNREADABLE, READ_ONLY
 * where not even a copy can be read, SERVER_PORT_TAKEN, OPTION_UNREADABLE, FILE_NOT_FOUND, CERTIFICATE_UNREADABLE, INTERNAL
 */
export async function serveFolder(options: FolderServerOptions): Promise<FolderServer> {
  const folder = resolve(options.data_folder);
  const running = await findRunningServer(folder);
  if (running) {
    const where = { folder, address: running };
    throw new FaultError(fault('SERVER_RUNNING', where, where));
  }
  const held = holdFolder(folder, DATABASE_NAME);
  const error_log = new ErrorLog(join(folder, 'errors.log'));
  let opened: OpenedStore | null = null;
  try {
    tightenFolder(folder);
    opened = openStore(join(folder, DATABASE_NAME), held.blocked);
    // A backup that was put in the place of the database by hand, or a restoration that was killed.
    if (opened.store.read_only === null) unpackFiles(opened.store.database, folder);
    return await listenOn(options, folder, opened, error_log, held.giveBack);
  } catch (error) {
    opened?.close();
    held.giveBack();
    throw startFault(error, options, folder, error_log);
  }
}

async function listenOn(
  { host = '127.0.0.1', port, https, access = new AccessService(), build }: FolderServerOptions,
  folder: string,
  opened: OpenedStore,
  error_log: ErrorLog,
  giveBack: () => void,
): Promise<FolderServer> {
  const { store } = opened;
  const read_only = store.read_only !== null;
  const app = await build({ store, access, error_log, host_names: namesOfMachine(host) });
  const unmark = () => unmarkServer(folder, store.instance);
  try {
    const { address, stop } = await listen(app, access, {
      host,
      port,
      https,
      tls_folder: join(folder, 'tls'),
      read_only,
      onListening: (at) => read_only || markServer(folder, { address: at, instance: store.instance }),
    });
    const close = async () => {
      unmark();
      await stop();
      opened.close();
      giveBack();
    };
    return { app, store, access, address, close };
  } catch (error) {
    unmark();
    throw error;
  }
}
