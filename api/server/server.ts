import type { RadioLibrary } from '../../ingest/ble/sources/machine/machine-radio.ts';
import { DemoLoading } from '../http/demo-loading.ts';
import { buildApp } from './app.ts';
import type { HttpsOptions } from './listen.ts';
import { DEFAULT_PORT } from './ports.ts';
import { type FolderServer, serveFolder } from './serve-folder.ts';

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

export interface RunningServer extends FolderServer {
  demo: DemoLoading;
}

/** A club's server. @throws FaultError as `serveFolder` */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { web_folder, log, radio, port = DEFAULT_PORT } = options;
  const demo = new DemoLoading();
  const server = await serveFolder({
    ...options,
    port,
    build: (parts) => buildApp({ ...parts, web_folder, log, demo, radio }),
  });
  return { ...server, demo };
}
