import { fault, FaultError } from '../../shared/fault.ts';
import type { ExportOrder } from '../../shared/schemas/export.ts';
import type { Caller } from './caller.ts';

/**
 * An export with names, or with what was written freely and may hold names, is the coach's, after a fresh code.
 * @throws FaultError ROLE_REFUSED, FRESH_CODE_NEEDED
 */
export function mayTakeNames(caller: Caller, order: ExportOrder): void {
  if (!order.with_names && !order.with_free_text) return;
  if (caller.role !== 'coach')
    throw new FaultError(fault('ROLE_REFUSED', { role: String(caller.role), roles: ['coach'] }));
  if (!caller.confirmed) throw new FaultError(fault('FRESH_CODE_NEEDED', {}));
}
