import { FaultError } from '../../shared/fault.ts';
import type { FaultAnswer } from '../../shared/schemas/common.ts';

/** Calls on the API over HTTP. */
export interface ApiClient {
  address: string;
  /** @throws FaultError what the API refused */
  call<Answer>(method: string, path: string, body?: unknown): Promise<Answer>;
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
