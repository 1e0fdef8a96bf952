import { Check, Errors } from 'typebox/value';
import { FaultError, fault } from '../../../shared/fault.ts';
import { Layout, LayoutCorrection } from '../../../shared/schemas/layout.ts';

/**
 * Reads a layout, or a correction of one, from its JSON.
 * @param text content of a layout file
 * @param file its name, for the message
 * @throws FaultError LAYOUT_UNREADABLE naming the first field that does not fit
 */
export function readLayoutFile(text: string, file: string): Layout | LayoutCorrection {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (cause) {
    throw unreadable(file, null, cause instanceof Error ? cause.message : 'it is no JSON');
  }
  return checkLayout(value, file);
}

/** @throws FaultError LAYOUT_UNREADABLE when a parsed value is neither a layout nor a correction of one */
export function checkLayout(value: unknown, file: string): Layout | LayoutCorrection {
  const whole = typeof value === 'object' && value !== null && 'layout_version' in value;
  const schema = whole ? Layout : LayoutCorrection;
  if (Check(schema, value)) return value as Layout | LayoutCorrection;
  const [first] = Errors(schema, value);
  throw unreadable(file, first.instancePath || null, `${first.instancePath || 'the layout'} ${first.message}`);
}

function unreadable(file: string, field: string | null, why: string): FaultError {
  return new FaultError(fault('LAYOUT_UNREADABLE', { file, why }, { file, field }));
}
