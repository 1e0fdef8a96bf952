import type { FastifyInstance } from 'fastify';
import { FaultError } from '../../shared/fault.ts';
import type { Store } from '../store/store.ts';

/** Asked with a body, and yet they change nothing. */
const CHANGES_NOTHING = new Set([
  'POST /api/layouts/preview',
  'POST /api/agreement',
  'POST /api/agreement/report',
  'POST /api/repeatability',
  'POST /api/coach/plan-check',
  'POST /api/capture/descriptions/check',
]);

/** While the database cannot be written, everything that would change it is refused before it begins, with what to do. */
export function refuseChanges(app: FastifyInstance, { read_only }: Store): void {
  if (read_only === null) return;
  app.addHook('onRequest', async ({ method, routeOptions }) => {
    const { url } = routeOptions;
    if (url === undefined || !url.startsWith('/api/')) return;
    if (['GET', 'HEAD', 'OPTIONS'].includes(method) || CHANGES_NOTHING.has(`${method} ${url}`)) return;
    throw new FaultError(read_only);
  });
}
