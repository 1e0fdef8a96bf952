import { Ajv } from 'ajv';
import { FaultError } from '../../shared/fault.ts';
import { LayoutCorrection } from '../../shared/schemas/layout.ts';
import type { Store } from '../store/store.ts';

/**
 * A layout given with an import: JSON text, or the name of a saved layout.
 * @throws FaultError LAYOUT_UNREADABLE
 */
export function readLayoutField(_store: Store, text: string): LayoutCorrection {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw unreadable('is neither JSON nor the name of a saved layout');
  }
  return checkLayout(value, 'layout');
}

/** Checks that a parsed value is a layout or a part of one. @throws FaultError LAYOUT_UNREADABLE */
export function checkLayout(value: unknown, source: string): LayoutCorrection {
  const check = new Ajv({ strict: false }).compile(LayoutCorrection);
  if (check(value)) return value as LayoutCorrection;
  const problem = check.errors?.[0];
  throw unreadable(`${problem?.instancePath || ''} ${problem?.message ?? 'does not fit'}`.trim(), source);
}

function unreadable(why: string, source = 'layout'): FaultError {
  return new FaultError({
    code: 'LAYOUT_UNREADABLE',
    message: `${source}: the layout ${why}. Nothing was read.`,
    where: { file: source },
    hint: 'A layout names only what is to be corrected; its schema is shared/schemas/layout.ts.',
  });
}
