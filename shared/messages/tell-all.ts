import type { CodedFault } from '../fault-shape.ts';
import type { CodedNotice } from '../notice-shape.ts';
import type { CodedReason } from '../reason-shape.ts';
import type { Speech } from './say.ts';

/**
 * An answer or a file's content with every fault, reason and notice in it told. Parts without a fault stay the same objects; typed arrays are
 * not looked into.
 */
export function tellAll<T>(content: T, speech: Speech): T {
  return told(content, speech) as T;
}

function told(value: unknown, speech: Speech): unknown {
  if (Array.isArray(value)) {
    const out = value.map((item) => told(item, speech));
    return out.some((item, i) => item !== value[i]) ? out : value;
  }
  if (typeof value !== 'object' || value === null || Object.getPrototypeOf(value) !== Object.prototype) return value;
  if (isCodedFault(value)) return speech.tell(value);
  if (isCodedReason(value)) return speech.because(value);
  if (isCodedNotice(value)) return speech.notice(value);
  let out: Record<string, unknown> | null = null;
  for (const [name, item] of Object.entries(value)) {
    const now = told(item, speech);
    if (now !== item) out = { ...(out ?? value), [name]: now };
  }
  return out ?? value;
}

function isCodedFault(value: object): value is CodedFault {
  return 'code' in value && 'sentence' in value && 'values' in value && 'where' in value;
}

/** Nothing but a key and values: evidence about a layout has a `because` as well, in words and beside other fields. */
function isCodedReason(value: object): value is CodedReason {
  return hasOnlyKeyAndValues(value, 'because');
}

function isCodedNotice(value: object): value is CodedNotice {
  return hasOnlyKeyAndValues(value, 'notice');
}

function hasOnlyKeyAndValues(value: object, key: 'because' | 'notice'): boolean {
  const entry = (value as Record<string, unknown>)[key];
  return typeof entry === 'string' && Object.keys(value).every((name) => name === key || name === 'values');
}
