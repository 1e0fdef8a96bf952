import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox';
import type { RadioLibrary } from '../../ingest/ble/sources/machine/machine-radio.ts';
import type { AccessService } from '../access/access-service.ts';
import type { DemoLoading } from './demo-loading.ts';
import type { Jobs } from '../measuring/jobs/jobs.ts';
import type { Store } from '../store/store.ts';

/** What every route file gets to work with. */
export interface ApiContext {
  store: Store;
  jobs: Jobs;
  access: AccessService;
  demo: DemoLoading;
  /** By which library the radio of this machine is reached. */
  radio: RadioLibrary;
  /** What works on a person's data and must be stopped before that person is erased; every part adds its own. */
  stopWorkOn: ((athlete_id: number) => Promise<void>)[];
}

/** Routes that need such a context. */
export type RoutesOf<Context extends Partial<ApiContext>> = FastifyPluginAsyncTypebox<Context>;

/** A route file exports one of these; api/server/app.ts registers it under /api with one line. */
export type ApiRoutes = RoutesOf<ApiContext>;
