import { isIP } from 'node:net';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { FaultError, fault } from '../../shared/fault.ts';

/**
 * On this machine there is no log-in, so a web page from elsewhere that is open in the same browser must not reach the data:
 * requests whose `Origin` is another site, that the browser itself says come from one (`Sec-Fetch-Site`), or whose `Host` is a
 * name that was made to point here, are refused.
 * @param hostNames names besides `localhost` and plain addresses by which the server may be called
 */
export function refuseForeignPages(app: FastifyInstance, hostNames: string[]): void {
  const allowed = new Set(['localhost', ...hostNames.map((name) => name.toLowerCase())]);
  app.addHook('onRequest', async (request) => {
    const host = request.headers.host ?? '';
    const name = host
      .replace(/:\d+$/, '')
      .replace(/^\[|\]$/g, '')
      .toLowerCase();
    const origin = request.headers.origin;
    const ownName = allowed.has(name) || isIP(name) > 0;
    const ownOrigin = origin === undefined || hostOf(origin) === host.toLowerCase();
    if (ownName && ownOrigin && !fromForeignPage(request)) return;
    throw new FaultError(fault('ORIGIN_REFUSED', { origin: origin ?? null, host }, { host, origin: origin ?? null }));
  });
}

function hostOf(origin: string): string {
  try {
    return new URL(origin).host.toLowerCase();
  } catch {
    return '';
  }
}

/** What browsers say of a request by themselves; a link from elsewhere may open the view, but nothing of the API. */
function fromForeignPage(request: FastifyRequest): boolean {
  const site = request.headers['sec-fetch-site'];
  if (site === undefined || site === 'same-origin' || site === 'none') return false;
  const opensView = request.headers['sec-fetch-mode'] === 'navigate' && !request.url.startsWith('/api');
  return !(opensView && request.method === 'GET');
}
