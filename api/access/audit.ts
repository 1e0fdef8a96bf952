import type { AuditEntry } from '../../shared/schemas/access.ts';
import { nowUtc, type Store } from '../store/store.ts';
import type { Caller } from './caller.ts';

/** Notes who did what. Reading and exporting of a person's data is noted for devices; what cannot be undone for everybody. */
export function noteUse(
  store: Store,
  caller: Caller,
  action: string,
  operation: string,
  athlete_id: number | null,
): void {
  if (store.read_only !== null) return;
  store
    .prepare('INSERT INTO audit (at_utc, device_id, action, operation, athlete_id) VALUES (?, ?, ?, ?, ?)')
    .run(nowUtc(), caller.device?.device_id ?? null, action, operation, athlete_id);
}

/** The newest entries first, at most `limit`, those before `before_id` where it is given. */
export function listAudit(store: Store, limit: number, before_id: number | null): AuditEntry[] {
  return store
    .prepare(
      `SELECT a.audit_id, a.at_utc, a.device_id, coalesce(d.name, 'this machine') AS device, a.action, a.operation, a.athlete_id
         FROM audit a LEFT JOIN devices d ON d.device_id = a.device_id
        WHERE ? IS NULL OR a.audit_id < ? ORDER BY a.audit_id DESC LIMIT ?`,
    )
    .all(before_id, before_id, limit) as AuditEntry[];
}
