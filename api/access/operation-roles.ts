import { ARCHIVE_DEVICE_ROLES, DEVICE_ROLES, type DeviceRole } from '../../shared/schemas/access.ts';

/** What an operation asks of a device on the network. The machine itself may do everything. */
export interface OperationAccess {
  /** Roles that may; null: anybody, for what a device needs before it is paired. */
  roles: readonly DeviceRole[] | null;
  /** Cannot be undone, or gives names away: needs a fresh code from the machine's own screen. */
  fresh_code: boolean;
}

const ANYBODY: OperationAccess = { roles: null, fresh_code: false };
const COACH: OperationAccess = { roles: ['coach'], fresh_code: false };
const CONFIRMED: OperationAccess = { roles: ['coach'], fresh_code: true };
const FIELD: OperationAccess = { roles: ['coach', 'field'], fresh_code: false };
const SCREENS: OperationAccess = { roles: ['coach', 'field', 'display'], fresh_code: false };
const STUDY: OperationAccess = { roles: ['coach', 'scientist'], fresh_code: false };
const PAIRED: OperationAccess = { roles: DEVICE_ROLES, fresh_code: false };
/** Whoever a server belongs to: the coach of a club, the keeper of an archive. */
const OWNER: OperationAccess = { roles: ['coach', 'keeper'], fresh_code: false };
const OWNER_CONFIRMED: OperationAccess = { ...OWNER, fresh_code: true };
const KEEPER: OperationAccess = { roles: ['keeper'], fresh_code: false };
const LOOKS_AT_ARCHIVE: OperationAccess = { roles: ARCHIVE_DEVICE_ROLES, fresh_code: false };

/** Operations that others than the coach may use, or that need more than the coach's role; every other one is the coach's. */
const ACCESS: Record<string, OperationAccess> = {
  'GET /api/health': ANYBODY,
  'GET /api/access/me': ANYBODY,
  'POST /api/access/pair': ANYBODY,
  'GET /api/access/authority.crt': ANYBODY,
  'POST /api/access/confirm': PAIRED,
  'POST /api/access/leave': PAIRED,
  'POST /api/access/codes': OWNER_CONFIRMED,
  'GET /api/access/devices': OWNER,
  'PATCH /api/access/devices/:device_id': OWNER_CONFIRMED,
  'DELETE /api/access/devices/:device_id': OWNER_CONFIRMED,
  'GET /api/access/audit': OWNER_CONFIRMED,

  'GET /api/demo': SCREENS,
  'GET /api/sessions': SCREENS,
  'GET /api/sessions/:session_id': FIELD,
  'GET /api/coach/sessions/:session_id/field': SCREENS,
  'GET /api/coach/sessions/:session_id/field/events': SCREENS,
  'GET /api/coach/sessions/:session_id/plan': FIELD,
  'GET /api/coach/sessions/:session_id/fatigue': FIELD,
  'GET /api/coach/sessions/:session_id/verdicts': SCREENS,
  'GET /api/coach/repetitions/:repetition_id/judgements': FIELD,
  'GET /api/coach/repetitions/:repetition_id/ratings': FIELD,
  'PUT /api/coach/repetitions/:repetition_id/ratings/:aspect': FIELD,
  'GET /api/coach/focuses': FIELD,
  'GET /api/coach/settings': FIELD,
  'GET /api/coach/norms': PAIRED,
  'PATCH /api/repetitions/:repetition_id': FIELD,

  'GET /api/exports': STUDY,
  'POST /api/exports': STUDY,
  'GET /api/exports/:export_id/archive': STUDY,
  'POST /api/agreement': STUDY,
  'POST /api/agreement/report': STUDY,
  'POST /api/repeatability': STUDY,

  'PUT /api/athletes/:athlete_id/research-consent': CONFIRMED,
  'GET /api/coach/athletes/:athlete_id/everything.zip': CONFIRMED,
  'POST /api/coach/athletes/:athlete_id/erase': CONFIRMED,
};

/** Live capture is the field's work: all of it, but for what describes or removes sensors' kinds. */
const CAPTURE = /^(?:GET|POST|PUT|DELETE) \/api\/capture(?:\/|$)/;

/** Pages of a programme's archive (`api/archive/serve`): a scientist looks, a keeper works. */
const ARCHIVE = /^[A-Z]+ \/api\/archive(?:\/|$)/;

/**
 * What an operation asks for.
 * @param operation method and path as the router has it, `GET /api/sessions/:session_id`
 */
export function accessOf(operation: string): OperationAccess {
  const listed = ACCESS[operation];
  if (listed) return listed;
  if (ARCHIVE.test(operation)) return operation.startsWith('GET ') ? LOOKS_AT_ARCHIVE : KEEPER;
  return CAPTURE.test(operation) && !operation.includes('/descriptions') ? FIELD : COACH;
}

/** Operations that are named here, for the test that compares them with what the server offers. */
export const NAMED_OPERATIONS: readonly string[] = Object.keys(ACCESS);
