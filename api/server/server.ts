import { mkdirSync } from 'node:fs';
import { hostname } from 'node:os';
import { join, resolve } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { FaultError } from '../../shared/fault.ts';
import { buildApp } from './app.ts';
import { DATABASE_NAME, findRunningServer, markServer, unmarkServer } from './running-server.ts';
import { Store } from '../store/store.ts';

export const DEFAULT_PORT = 7100;

export interface ServerOptions {
  /** Folder of the database; made when it is not there. */
  data_folder: string;
  /** Only this machine by default; 0.0.0.0 opens it to the local network. */
  host?: string;
  port?: number;
  /** Folder of the built view; that of `npm run build` without it. */
  web_folder?: string;
  log?: boolean;
}

export interface RunningServer {
  app: FastifyInstance;
  store: Store;
  address: string;
  close(): Promise<void>;
}

/**
 * Opens the store and listens. Closing the answer closes both.
 * @throws FaultError SERVER_RUNNING when another server works on the folder, SERVER_PORT_TAKEN
 */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { host = '127.0.0.1', port = DEFAULT_PORT, web_folder, log = false } = options;
  const dataFolder = resolve(options.data_folder);
  const running = await findRunningServer(dataFolder);
  if (running) {
    throw new FaultError({
      code: 'SERVER_RUNNING',
      message: `A server works on ${dataFolder} already, at ${running}; two would do the same work twice.`,
      where: { folder: dataFolder, address: running },
      hint: 'Open that address, or stop that server first.',
    });
  }
  mkdirSync(dataFolder, { recursive: true });
  const store = Store.open(join(dataFolder, DATABASE_NAME));
  const app = await buildApp({ store, host_names: [host, hostname(), `${hostname()}.local`], web_folder, log });
  try {
    const address = await app.listen({ host, port });
    markServer(dataFolder, { address, instance: store.instance });
    const close = async () => {
      unmarkServer(dataFolder, store.instance);
      await app.close();
      store.close();
    };
    return { app, store, address, close };
  } catch (error) {
    await app.close();
    store.close();
    if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
    throw new FaultError({
      code: 'SERVER_PORT_TAKEN',
      message: `Port ${port} is in use by another program; the server was not started.`,
      where: { port },
      hint: 'Name another one with --port, or --port 0 for any free one.',
    });
  }
}
