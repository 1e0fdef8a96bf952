import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { buildApp } from './app.ts';
import { Store } from './store/store.ts';

export const DEFAULT_PORT = 7100;
export const DATABASE_NAME = 'cinderlane.sqlite';

export interface ServerOptions {
  /** Folder of the database; made when it is not there. */
  data_folder: string;
  /** Only this machine by default; 0.0.0.0 opens it to the local network. */
  host?: string;
  port?: number;
  log?: boolean;
}

/** Opens the store and listens. Closing the answer closes both. */
export async function startServer({
  data_folder,
  host = '127.0.0.1',
  port = DEFAULT_PORT,
  log = false,
}: ServerOptions): Promise<{ app: FastifyInstance; store: Store; address: string; close(): Promise<void> }> {
  mkdirSync(data_folder, { recursive: true });
  const store = Store.open(join(data_folder, DATABASE_NAME));
  const app = await buildApp({ store, host_names: [host], log });
  const address = await app.listen({ host, port });
  const close = async () => {
    await app.close();
    store.close();
  };
  return { app, store, address, close };
}
