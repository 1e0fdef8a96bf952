import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox';
import type { AccessService } from '../access/access-service.ts';
import type { Jobs } from '../measuring/jobs/jobs.ts';
import type { Store } from '../store/store.ts';

/** What every route file gets to work with. */
export interface ApiContext {
  store: Store;
  jobs: Jobs;
  access: AccessService;
}

/** A route file exports one of these; api/server/app.ts registers it under /api with one line. */
export type ApiRoutes = FastifyPluginAsyncTypebox<ApiContext>;
