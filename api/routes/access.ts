import { Type } from 'typebox';
import {
  AccessCode,
  AccessState,
  AuditEntry,
  CodeBody,
  ConfirmBody,
  Device,
  DeviceBody,
  type DeviceRole,
  PairBody,
} from '../../shared/schemas/access.ts';
import { Done, FaultAnswer, Id, listOf } from '../../shared/schemas/common.ts';
import { fault, FaultError } from '../../shared/fault.ts';
import { listAudit } from '../access/audit.ts';
import { type Caller, TOKEN_COOKIE } from '../access/caller.ts';
import { addDevice, changeDevice, confirmDevice, listDevices, revokeDevice } from '../access/devices.ts';
import type { ApiContext, RoutesOf } from '../http/context.ts';

/** What it needs of a server, whatever else the server is for. */
type AccessRoutes = RoutesOf<Pick<ApiContext, 'store' | 'access'>>;

const tags = ['access'];
const ofDevice = Type.Object({ device_id: Id });
const A_YEAR_S = 365 * 86_400;
/** Codes one address may try a minute, over and above the five tries of each code. */
const PAIRINGS_A_MINUTE = 10;

export const accessRoutes: AccessRoutes = async (app, { store, access }) => {
  const state = (caller: Caller) => stateOf(caller, [...access.roles]);
  app.get('/access/me', { schema: { tags, response: { 200: AccessState } } }, async ({ caller }) => state(caller));

  app.post(
    '/access/codes',
    { schema: { tags, body: CodeBody, response: { 201: AccessCode, default: FaultAnswer } } },
    async ({ body }, reply) =>
      reply
        .status(201)
        .send(await access.issue(body.purpose, body.purpose === 'pair' ? (body.role ?? access.roles[0]) : null)),
  );

  app.post(
    '/access/pair',
    {
      schema: { tags, body: PairBody, response: { 201: AccessState, default: FaultAnswer } },
      config: { rateLimit: { max: PAIRINGS_A_MINUTE, timeWindow: '1 minute' } },
    },
    async (request, reply) => {
      const role = access.codes.redeem('pair', request.body.code) ?? access.roles[0];
      const { device, token } = addDevice(store, request.body.device_name, role);
      reply.setCookie(TOKEN_COOKIE, token, {
        path: '/',
        httpOnly: true,
        sameSite: 'strict',
        secure: request.protocol === 'https' || 'encrypted' in request.socket,
        maxAge: A_YEAR_S,
      });
      const caller: Caller = { here: false, role, device: { ...device, confirmed_until_utc: null }, confirmed: false };
      return reply.status(201).send(state(caller));
    },
  );

  app.post(
    '/access/confirm',
    {
      schema: { tags, body: ConfirmBody, response: { 200: AccessState, default: FaultAnswer } },
      config: { rateLimit: { max: PAIRINGS_A_MINUTE, timeWindow: '1 minute' } },
    },
    async ({ body, caller }) => {
      access.codes.redeem('confirm', body.code);
      if (caller.device === null) return state(caller);
      const until = access.confirmedUntil();
      confirmDevice(store, caller.device.device_id, until);
      return state({ ...caller, device: { ...caller.device, confirmed_until_utc: until }, confirmed: true });
    },
  );

  app.post(
    '/access/leave',
    { schema: { tags, response: { 200: Done, default: FaultAnswer } } },
    async ({ caller }, reply) => {
      if (caller.device) revokeDevice(store, caller.device.device_id);
      reply.clearCookie(TOKEN_COOKIE, { path: '/' });
      return { ok: true as const };
    },
  );

  app.get(
    '/access/devices',
    { schema: { tags, response: { 200: listOf(Device), default: FaultAnswer } } },
    async () => ({
      items: listDevices(store),
    }),
  );

  app.patch(
    '/access/devices/:device_id',
    { schema: { tags, params: ofDevice, body: DeviceBody, response: { 200: Device, default: FaultAnswer } } },
    async ({ params, body }) => {
      if (body.role !== undefined) access.checkRole(body.role);
      return changeDevice(store, params.device_id, body);
    },
  );

  app.delete(
    '/access/devices/:device_id',
    { schema: { tags, params: ofDevice, response: { 200: Done, default: FaultAnswer } } },
    async ({ params }) => {
      revokeDevice(store, params.device_id);
      return { ok: true as const };
    },
  );

  const page = Type.Object({
    limit: Type.Integer({ minimum: 1, maximum: 500, default: 100 }),
    before_id: Type.Optional(Id),
  });
  app.get(
    '/access/audit',
    { schema: { tags, querystring: page, response: { 200: listOf(AuditEntry), default: FaultAnswer } } },
    async ({ query }) => ({ items: listAudit(store, query.limit, query.before_id ?? null) }),
  );

  app.get(
    '/access/authority.crt',
    {
      schema: {
        tags,
        description:
          'Certificate of the authority that --lan made, for a phone to trust. Its key never leaves the machine.',
      },
    },
    async (_request, reply) => {
      if (access.place.ca_pem === null) throw new FaultError(fault('AUTHORITY_NOT_FOUND', {}));
      return reply
        .type('application/x-x509-ca-cert')
        .header('content-disposition', 'attachment; filename="cinderlane-authority.crt"')
        .send(access.place.ca_pem);
    },
  );
};

function stateOf({ here, role, device, confirmed }: Caller, roles: DeviceRole[]): AccessState {
  if (device === null) return { here, role, roles, device: null, confirmed_until_utc: null };
  const { confirmed_until_utc, ...plain } = device;
  return { here, role, roles, device: plain, confirmed_until_utc: confirmed ? confirmed_until_utc : null };
}
