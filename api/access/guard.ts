import cookie from '@fastify/cookie';
import rateLimit from '@fastify/rate-limit';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { localDate } from '../../shared/dates.ts';
import { fault, FaultError } from '../../shared/fault.ts';
import type { Store } from '../store/store.ts';
import { noteUse } from './audit.ts';
import { callerOf, isLoopback } from './caller.ts';
import { narrowAnswer } from './narrow.ts';
import { dayOf, peopleOfDay } from './people-of-day.ts';
import { accessOf, type OperationAccess } from './operation-roles.ts';

/** Requests a minute from one address of the network. A field screen asks some 30; an import's form is one. */
const REQUESTS_A_MINUTE = 1200;

/**
 * Asks every request to the API for its right: the machine itself has all, a device what its role allows. Says the role of every
 * operation in the API description, and notes what devices read of a person.
 */
export async function guardOperations(app: FastifyInstance, store: Store): Promise<void> {
  await app.register(cookie);
  await app.register(rateLimit, {
    max: REQUESTS_A_MINUTE,
    timeWindow: '1 minute',
    allowList: (request) => isLoopback(request.socket.remoteAddress),
    errorResponseBuilder: (_request, { after }) => new FaultError(fault('TOO_MANY_REQUESTS', { after })),
  });
  app.decorateRequest('caller', null as never);
  app.addHook('onRoute', (route) => {
    if (!route.url.startsWith('/api/') || route.schema?.hide === true) return;
    const [method] = [route.method].flat();
    const access = accessOf(`${method} ${route.url}`);
    const { description } = (route.schema ?? {}) as { description?: string };
    route.schema = {
      ...route.schema,
      description: [description, inWords(access)].filter(Boolean).join('\n\n'),
    } as never;
  });
  app.addHook('onRequest', async (request) => {
    request.caller = callerOf(request, store);
    const operation = operationOf(request);
    if (operation === null || request.caller.here) return;
    const { roles, fresh_code } = accessOf(operation);
    if (roles === null) return;
    const { role, device, confirmed } = request.caller;
    if (device === null || role === null) throw new FaultError(fault('DEVICE_UNKNOWN', {}));
    if (!roles.includes(role)) throw new FaultError(fault('ROLE_REFUSED', { role, roles: [...roles] }));
    if (fresh_code && !confirmed) throw new FaultError(fault('FRESH_CODE_NEEDED', {}));
    if (role === 'field' || role === 'display')
      refuseOtherDays(store, (request.params ?? {}) as Record<string, unknown>);
  });
  app.addHook('preHandler', async (request) => {
    const { role } = request.caller;
    if (role !== 'field' || operationOf(request) === null) return;
    const body = request.body;
    if (body === null || typeof body !== 'object' || Buffer.isBuffer(body)) return;
    refuseOtherDays(store, body as Record<string, unknown>);
    // It is not shown them, so it cannot mean to change them.
    if ('notes' in body) throw new FaultError(fault('ROLE_REFUSED', { role, roles: ['coach'] }));
  });
  app.addHook('preSerialization', async (request, reply, answer) => {
    return reply.statusCode >= 400 ? answer : request.narrow(answer);
  });
  app.decorateRequest('narrow', function (this: FastifyRequest, answer: unknown) {
    const operation = operationOf(this);
    const { here, role } = this.caller;
    if (operation === null || here || role === null) return answer;
    const today = localDate(new Date());
    let people: Set<number> | undefined;
    const peopleNow = () => {
      people ??= peopleOfDay(store, today);
      return people;
    };
    return narrowAnswer(answer, { role, operation, today, people: peopleNow });
  });
  app.addHook('onResponse', async (request, reply) => {
    const operation = operationOf(request);
    if (operation === null || reply.statusCode >= 400) return;
    const about = personOf(request, store);
    if (about === undefined) return;
    if (request.caller.here && !accessOf(operation).fresh_code) return;
    noteUse(store, request.caller, actionOf(operation), operation, about);
  });
}

/** Method and path of the router for what the API does; null for the view's files and for unknown addresses. */
function operationOf(request: FastifyRequest): string | null {
  const path = request.routeOptions.url;
  if (path === undefined || !path.startsWith('/api')) return null;
  return `${request.method === 'HEAD' ? 'GET' : request.method} ${path}`;
}

/** A device that is not the coach's works with the day's sessions and with those who run in them. */
function refuseOtherDays(store: Store, named: Record<string, unknown>): void {
  const today = localDate(new Date());
  for (const key of ['session_id', 'repetition_id'] as const) {
    if (named[key] === undefined || named[key] === null) continue;
    const of = key === 'session_id' ? { session_id: Number(named[key]) } : { repetition_id: Number(named[key]) };
    const date = dayOf(store, of);
    if (date !== undefined && date !== today) throw new FaultError(fault('OTHER_DAY_REFUSED', { date }, { date }));
  }
  const { athlete_id } = named;
  if (typeof athlete_id === 'number' && !peopleOfDay(store, today).has(athlete_id))
    throw new FaultError(fault('OTHER_DAY_REFUSED.athlete', {}, { athlete_id }));
}

/** The athlete that a request was about; null for exports of many; undefined where it was about nobody. */
function personOf(request: FastifyRequest, store: Store): number | null | undefined {
  const params = (request.params ?? {}) as Record<string, string | undefined>;
  if (params.athlete_id !== undefined) return Number(params.athlete_id);
  if (params.repetition_id !== undefined) {
    const row = store
      .prepare('SELECT athlete_id FROM repetitions WHERE repetition_id = ?')
      .get(Number(params.repetition_id));
    return (row as { athlete_id: number } | undefined)?.athlete_id;
  }
  const path = request.routeOptions.url ?? '';
  if (path.startsWith('/api/archive')) return request.method === 'GET' ? undefined : null;
  return /\/(?:exports|agreement|repeatability)/.test(path) ? null : undefined;
}

function actionOf(operation: string): string {
  if (operation.endsWith('/erase')) return 'erased';
  if (/everything\.zip|\/exports|\.csv|\.pdf/.test(operation)) return 'exported';
  return operation.startsWith('GET ') ? 'read' : 'changed';
}

function inWords({ roles, fresh_code }: OperationAccess): string {
  if (roles === null) return 'Access: any device, paired or not.';
  const who = `Access: ${roles.join(', ')}; on the machine itself without log-in.`;
  return fresh_code ? `${who} A paired device needs a fresh code.` : who;
}
