import { FaultError } from '../../shared/fault.ts';
import type { FaultAnswer } from '../../shared/schemas/common.ts';
import { findRunningServer } from '../server/running-server.ts';
import { startServer } from '../server/server.ts';

/** Calls on the API over HTTP. */
export interface ApiClient {
  address: string;
  /** @throws FaultError what the API refused */
  call<Answer>(method: string, path: string, body?: unknown): Promise<Answer>;
}

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

/** Calls on the API at an address. */
export function clientOf(address: string): ApiClient {
  return {
    address,
    async call(method, path, body) {
      const form = body instanceof FormData;
      const answer = await fetch(`${address}/api${path}`, {
        method,
        body: body === undefined ? undefined : form ? body : JSON.stringify(body),
        headers: body === undefined || form ? {} : { 'content-type': 'application/json' },
      });
      const value = await answer.json();
      if (!answer.ok) throw new FaultError(value as FaultAnswer);
      return value as never;
    },
  };
}
