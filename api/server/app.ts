import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import helmet from '@fastify/helmet';
import serveStatic from '@fastify/static';
import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import type { TypeBoxTypeProvider } from '@fastify/type-provider-typebox';
import fastify, { type FastifyInstance } from 'fastify';
import { RADIO_LIBRARIES, type RadioLibrary } from '../../ingest/ble/sources/machine/machine-radio.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import { AccessService } from '../access/access-service.ts';
import { resumeErasures } from '../coach/people/erase-person.ts';
import { guardOperations } from '../access/guard.ts';
import type { ApiContext } from '../http/context.ts';
import { answerBadAddress, answerFaults } from '../http/fault-answer.ts';
import { Jobs } from '../measuring/jobs/jobs.ts';
import { describeOperation } from '../http/describe-operations.ts';
import { pageLists } from '../http/page-lists.ts';
import { refuseChanges } from '../http/refuse-changes.ts';
import { refuseForeignPages } from '../http/refuse-foreign-pages.ts';
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
import { validateRequests } from '../http/validate-requests.ts';
import { VERSION } from '../version.ts';

const WEB_FOLDER = fileURLToPath(new URL('../../web/dist/', import.meta.url));

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

/** A request must arrive whole within this; a file of 2 GB over a field's Wi-Fi takes some minutes. */
const REQUEST_TIMEOUT_MS = 30 * 60_000;

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
  const app = fastify({
    logger: log,
    bodyLimit: 16 * 1024 * 1024,
    forceCloseConnections: true,
    requestTimeout: REQUEST_TIMEOUT_MS,
    frameworkErrors: answerBadAddress,
  });
  const context: ApiContext = { store, jobs: new Jobs(store), access, demo, radio, stopWorkOn: [] };
  context.stopWorkOn.push((athlete_id) => context.jobs.cancelImportsOf(athlete_id));
  app.addHook('onReady', async () => {
    if (store.read_only !== null) return;
    resumeErasures(store);
    context.jobs.recover();
  });
  app.addHook('onClose', () => context.jobs.close());

  answerFaults(app, (request, error) =>
    error_log.note({ during: `${request.method} ${request.routeOptions.url ?? 'an unknown address'}`, error }),
  );
  validateRequests(app);
  pageLists(app);
  refuseForeignPages(app, host_names);
  await app.register(helmet, {
    // Plain HTTP on the local network: nothing is upgraded, and the view brings all it needs itself.
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        'default-src': ["'self'"],
        'img-src': ["'self'", 'data:', 'blob:'],
        // A film of the device, opened in the page.
        'media-src': ["'self'", 'blob:'],
        'object-src': ["'none'"],
        'base-uri': ["'none'"],
        'form-action': ["'self'"],
        'frame-ancestors': ["'none'"],
      },
    },
    strictTransportSecurity: false,
    crossOriginOpenerPolicy: false,
    originAgentCluster: false,
  });
  await guardOperations(app, store);
  refuseChanges(app, store);
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: { title: 'Cinderlane', version: VERSION, description: 'Ground contacts of every repetition.' },
    },
    transform: describeOperation as never,
  });
  await app.register(swaggerUi, {
    routePrefix: '/api/docs',
    staticCSP: true,
    theme: {
      title: 'Cinderlane API',
      // The bar on top only repeats the address, beside the library's own logo.
      css: [{ filename: 'api-docs.css', content: '.swagger-ui .topbar { display: none }' }],
    },
  });

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

  await serveView(app, web_folder);
  return app;
}

/** The built view, where there is one. Its assets carry a hash of their content in their names and never change. */
async function serveView(app: FastifyInstance, folder: string): Promise<void> {
  if (!existsSync(folder)) {
    app.get('/', { schema: { hide: true } }, () => {
      throw new FaultError(fault('VIEW_NOT_BUILT', {}, { path: '/' }));
    });
    return;
  }
  await app.register(serveStatic, {
    root: folder,
    cacheControl: false,
    setHeaders: (reply, path) => {
      const lasting = path.includes('/assets/');
      reply.setHeader('cache-control', lasting ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
}
