import { findRunningServer } from '../server/running-server.ts';
import { startServer } from '../server/server.ts';
import { type ApiClient, clientOf } from './api-client.ts';

/**
 * Runs commands that change the store through the API: that of the server that works on the folder, or one of its own for
 * the time of the command. So there is one way in, and one process that writes.
 */
export async function withApi<Result>(dataFolder: string, work: (api: ApiClient) => Promise<Result>): Promise<Result> {
  const running = await findRunningServer(dataFolder);
  if (running) return work(clientOf(running));
  const server = await startServer({ data_folder: dataFolder, port: 0 });
  try {
    return await work(clientOf(server.address));
  } finally {
    await server.close();
  }
}
