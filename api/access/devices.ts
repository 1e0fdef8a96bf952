import { createHash, randomBytes } from 'node:crypto';
import { fault, FaultError } from '../../shared/fault.ts';
import type { Device, DeviceRole } from '../../shared/schemas/access.ts';
import { nowUtc, type Store } from '../store/store.ts';

/** A device as the store keeps it, without its token. */
export interface DeviceRow extends Device {
  confirmed_until_utc: string | null;
}

const COLUMNS = 'device_id, name, role, created_utc, last_used_utc, confirmed_until_utc, revoked_utc';
/** A use is written down at most this often, so that reading does not write each time. */
const USE_NOTED_EVERY_MS = 60_000;

/** Pairs a device. @returns its row, and the token, 256 random bits, which is kept as a digest only */
export function addDevice(store: Store, name: string, role: DeviceRole): { device: Device; token: string } {
  const token = randomBytes(32).toString('base64url');
  const row = store
    .prepare(`INSERT INTO devices (name, role, token_sha256, created_utc) VALUES (?, ?, ?, ?) RETURNING ${COLUMNS}`)
    .get(name.trim(), role, digestOf(token), nowUtc()) as DeviceRow;
  return { device: plain(row), token };
}

/** The device that bears a token, unless it was revoked. */
export function deviceOfToken(store: Store, token: string): DeviceRow | null {
  const row = store
    .prepare(`SELECT ${COLUMNS} FROM devices WHERE token_sha256 = ? AND revoked_utc IS NULL`)
    .get(digestOf(token)) as DeviceRow | undefined;
  if (!row) return null;
  const now = new Date();
  if (store.read_only !== null) return row;
  if (row.last_used_utc === null || now.getTime() - Date.parse(row.last_used_utc) > USE_NOTED_EVERY_MS) {
    store.prepare('UPDATE devices SET last_used_utc = ? WHERE device_id = ?').run(now.toISOString(), row.device_id);
  }
  return row;
}

/** All devices, the newest first; revoked ones at the end. */
export function listDevices(store: Store): Device[] {
  const rows = store.prepare(`SELECT ${COLUMNS} FROM devices ORDER BY revoked_utc IS NOT NULL, device_id DESC`).all();
  return (rows as DeviceRow[]).map(plain);
}

/** Renames a device or changes its role. @throws FaultError DEVICE_NOT_FOUND */
export function changeDevice(store: Store, device_id: number, change: { name?: string; role?: DeviceRole }): Device {
  const row = store
    .prepare(
      `UPDATE devices SET name = coalesce(?, name), role = coalesce(?, role) WHERE device_id = ? RETURNING ${COLUMNS}`,
    )
    .get(change.name?.trim() ?? null, change.role ?? null, device_id) as DeviceRow | undefined;
  if (!row) throw notFound(device_id);
  return plain(row);
}

/** From now on the device's token opens nothing. @throws FaultError DEVICE_NOT_FOUND */
export function revokeDevice(store: Store, device_id: number): void {
  const { changes } = store
    .prepare('UPDATE devices SET revoked_utc = coalesce(revoked_utc, ?) WHERE device_id = ?')
    .run(nowUtc(), device_id);
  if (changes === 0) throw notFound(device_id);
}

/** Lets a device do for a while what needs a fresh code. */
export function confirmDevice(store: Store, device_id: number, until_utc: string): void {
  store.prepare('UPDATE devices SET confirmed_until_utc = ? WHERE device_id = ?').run(until_utc, device_id);
}

function plain({ confirmed_until_utc: _, ...device }: DeviceRow): Device {
  return device;
}

function digestOf(token: string): Buffer {
  return createHash('sha256').update(token).digest();
}

function notFound(device_id: number): FaultError {
  return new FaultError(fault('DEVICE_NOT_FOUND', { device_id }, { device_id }));
}
