import type { TypeBoxTypeProvider } from '@fastify/type-provider-typebox';
import type { FastifyInstance } from 'fastify';
import { RADIO_LIBRARIES, type RadioLibrary } from '../../ingest/ble/sources/machine/machine-radio.ts';
import { AccessService } from '../access/access-service.ts';
import { resumeErasures } from '../coach/people/erase-person.ts';
import type { ApiContext } from '../http/context.ts';
import { Jobs } from '../measuring/jobs/jobs.ts';
import { accessRoutes } from '../routes/access.ts';
import { agreementRoutes } from '../routes/agreement.ts';
import { athleteRoutes } from '../routes/athletes.ts';
import { captureRoutes } from '../routes/capture.ts';
import { coachRoutes } from '../routes/coach/index.ts';
import { exportRoutes } from '../routes/exports.ts';
import { groupRoutes } from '../routes/groups.ts';
import { DemoLoading } from '../http/demo-loading.ts';
import { demoRoutes } from '../routes/demo.ts';
import { healthRoutes } from '../routes/health.ts';
import { importRoutes } from '../routes/imports.ts';
import { layoutRoutes } from '../routes/layouts.ts';
import { reanalysisRoutes } from '../routes/reanalyses.ts';
import { recordingRoutes } from '../routes/recordings.ts';
import { repetitionRoutes } from '../routes/repetitions.ts';
import { sessionRoutes } from '../routes/sessions.ts';
import { timingRoutes } from '../routes/timings.ts';
import type { Store } from '../store/store.ts';
import { ErrorLog } from './error-log.ts';
import { openApp } from './open-app.ts';
import { serveView, WEB_FOLDER } from './serve-view.ts';

export interface AppOptions {
  store: Store;
  /** Names by which the server may be called besides localhost and plain addresses. */
  host_names?: string[];
  /** Folder of the built view. */
  web_folder?: string;
  /** True logs every request to standard output. */
  log?: boolean;
  /** Codes of devices and where the server is reached; its own without it. */
  access?: AccessService;
  /** Told by whoever loads the demo; its own without it. */
  demo?: DemoLoading;
  /** By which library the radio of this machine is reached. */
  radio?: RadioLibrary;
  /** Where failures of the program are kept; nowhere without it. */
  error_log?: ErrorLog;
}

/** Builds the server without listening; closing it stops its jobs, the store stays open. */
export async function buildApp({
  store,
  host_names = [],
  web_folder = WEB_FOLDER,
  log = false,
  access = new AccessService(),
  demo = new DemoLoading(),
  error_log = new ErrorLog(null),
  radio = RADIO_LIBRARIES[0],
}: AppOptions): Promise<FastifyInstance> {
  const app = await openApp({
    store,
    host_names,
    log,
    error_log,
    title: 'Cinderlane',
    description: 'Ground contacts of every repetition.',
  });
  const context: ApiContext = { store, jobs: new Jobs(store), access, demo, radio, stopWorkOn: [] };
  context.stopWorkOn.push((athlete_id) => context.jobs.cancelImportsOf(athlete_id));
  app.addHook('onReady', async () => {
    if (store.read_only !== null) return;
    resumeErasures(store);
    context.jobs.recover();
  });
  app.addHook('onClose', () => context.jobs.close());

  await app.register(
    async (api) => {
      const typed = api.withTypeProvider<TypeBoxTypeProvider>();
      await typed.register(healthRoutes, context);
      await typed.register(demoRoutes, context);
      await typed.register(accessRoutes, context);
      await typed.register(athleteRoutes, context);
      await typed.register(groupRoutes, context);
      await typed.register(sessionRoutes, context);
      await typed.register(repetitionRoutes, context);
      await typed.register(importRoutes, context);
      await typed.register(timingRoutes, context);
      await typed.register(exportRoutes, context);
      await typed.register(agreementRoutes, context);
      await typed.register(layoutRoutes, context);
      await typed.register(recordingRoutes, context);
      await typed.register(reanalysisRoutes, context);
      await typed.register(coachRoutes, context);
      await typed.register(captureRoutes, context);
    },
    { prefix: '/api' },
  );

  await serveView(app, web_folder, 'index.html');
  return app;
}
