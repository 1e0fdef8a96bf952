import { isIP } from 'node:net';
import type { FastifyRequest } from 'fastify';
import type { DeviceRole } from '../../shared/schemas/access.ts';
import type { Store } from '../store/store.ts';
import { type DeviceRow, deviceOfToken } from './devices.ts';

export const TOKEN_COOKIE = 'cinderlane_device';

/** Who sent a request. */
export interface Caller {
  /** The machine that the server runs on: no log-in there. */
  here: boolean;
  /** Null: nobody we know. */
  role: DeviceRole | null;
  device: DeviceRow | null;
  /** May do what cannot be undone or gives names away. */
  confirmed: boolean;
}

declare module 'fastify' {
  interface FastifyRequest {
    caller: Caller;
    /** What the caller's role gets to see of an answer, or of an event of a stream. */
    narrow: (answer: unknown) => unknown;
  }
}

const NOBODY: Caller = { here: false, role: null, device: null, confirmed: false };
const AT_HOME: Caller = { here: true, role: 'coach', device: null, confirmed: true };

/**
 * Tells who sent a request: this machine, a paired device, or nobody. A request that a proxy handed on came from elsewhere,
 * whatever address the proxy has.
 */
export function callerOf(request: FastifyRequest, store: Store): Caller {
  const handedOn = ['forwarded', 'x-forwarded-for', 'x-real-ip', 'via'].some(
    (name) => request.headers[name] !== undefined,
  );
  if (!handedOn && isLoopback(request.socket.remoteAddress)) return AT_HOME;
  const token = request.cookies[TOKEN_COOKIE];
  const device = token ? deviceOfToken(store, token) : null;
  if (!device) return NOBODY;
  const confirmed = device.confirmed_until_utc !== null && Date.parse(device.confirmed_until_utc) > Date.now();
  return { here: false, role: device.role, device, confirmed };
}

/** An address of this machine itself: 127.0.0.0/8, ::1, or the former within IPv6. */
export function isLoopback(address: string | undefined): boolean {
  if (address === undefined) return false;
  const plain = address.replace(/^::ffff:/i, '');
  return plain === '::1' || (isIP(plain) === 4 && plain.startsWith('127.'));
}
