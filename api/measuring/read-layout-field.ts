import { checkLayout as checkLayoutValue, readLayoutFile } from '../../ingest/csv/infer/layout-file.ts';
import type { LayoutCorrection } from '../../shared/schemas/layout.ts';
import type { Store } from '../store/store.ts';

/**
 * A layout given with an import, as JSON: whole, or only what is to be corrected.
 * @throws FaultError LAYOUT_UNREADABLE
 */
export function readLayoutField(_store: Store, text: string): LayoutCorrection {
  return readLayoutFile(text, 'layout') as LayoutCorrection;
}

/** Checks that a parsed value is a layout or a part of one. @throws FaultError LAYOUT_UNREADABLE */
export function checkLayout(value: unknown, source: string): LayoutCorrection {
  return checkLayoutValue(value, source) as LayoutCorrection;
}
