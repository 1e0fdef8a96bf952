import helmet from '@fastify/helmet';
import swagger from '@fastify/swagger';
import swaggerUi from '@fastify/swagger-ui';
import fastify, { type FastifyInstance } from 'fastify';
import { guardOperations } from '../access/guard.ts';
import { describeOperation } from '../http/describe-operations.ts';
import { answerBadAddress, answerFaults } from '../http/fault-answer.ts';
import { pageLists } from '../http/page-lists.ts';
import { refuseChanges } from '../http/refuse-changes.ts';
import { refuseForeignPages } from '../http/refuse-foreign-pages.ts';
import { validateRequests } from '../http/validate-requests.ts';
import type { Store } from '../store/store.ts';
import { VERSION } from '../version.ts';
import type { ErrorLog } from './error-log.ts';

/** A request must arrive whole within this; a file of 2 GB over a field's Wi-Fi takes some minutes. */
const REQUEST_TIMEOUT_MS = 30 * 60_000;

export interface OpenAppOptions {
  /** Its devices may ask, and what they do is noted in it. */
  store: Store;
  host_names: string[];
  log: boolean;
  error_log: ErrorLog;
  /** Of the API's description. */
  title: string;
  description: string;
}

/** What every server has before its routes: one fault shape, checks of requests, who may what, the description of its API. */
export async function openApp(options: OpenAppOptions): Promise<FastifyInstance> {
  const { store, host_names, log, error_log, title, description } = options;
  const app = fastify({
    logger: log,
    bodyLimit: 16 * 1024 * 1024,
    forceCloseConnections: true,
    requestTimeout: REQUEST_TIMEOUT_MS,
    frameworkErrors: answerBadAddress,
  });
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
      info: { title, version: VERSION, description },
    },
    transform: describeOperation as never,
  });
  await app.register(swaggerUi, {
    routePrefix: '/api/docs',
    staticCSP: true,
    theme: {
      title: `${title} API`,
      // The bar on top only repeats the address, beside the library's own logo.
      css: [{ filename: 'api-docs.css', content: '.swagger-ui .topbar { display: none }' }],
    },
  });
  return app;
}
