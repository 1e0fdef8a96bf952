import type { Contact } from '../../../shared/analysis.ts';
import { CONTACT_FIELDS, type ContactField, type ContactQuantity, uncertaintyOf } from '../../../shared/fields.ts';

/** A repetition's mean of one quantity, with the contacts of the repetition it belongs to. */
export interface MeasuredMean {
  /** Contacts that the mean is over. */
  n: number;
  value_u: number | null;
  contacts: readonly Contact[];
}

/**
 * Standard uncertainty of the mean over some repetitions by measuring alone. Within an athlete the part of a contact time's error
 * that stays the same for a foot on one sensor drops out of a difference, and only the repeatable part counts; between athletes
 * all of it does.
 * @returns null where it is not known
 */
export function measuringOfMean(quantity: string, means: readonly MeasuredMean[], within: boolean): number | null {
  const parts = means.map((mean) => measuringOf(quantity, mean, within));
  if (parts.some((part) => part === null)) return null;
  const known = parts as { own: number; shared: number }[];
  const own = Math.sqrt(known.reduce((sum, part) => sum + part.own ** 2, 0)) / known.length;
  const shared = Math.sqrt(known.reduce((sum, part) => sum + part.shared ** 2, 0) / known.length);
  return Math.hypot(own, shared);
}

/** Parts that are fresh with every repetition, and that stay. */
function measuringOf(
  quantity: string,
  { n, value_u, contacts }: MeasuredMean,
  within: boolean,
): { own: number; shared: number } | null {
  const field = Object.hasOwn(CONTACT_FIELDS, quantity)
    ? (CONTACT_FIELDS[quantity as ContactQuantity] as ContactField)
    : null;
  if (!field) return value_u === null ? null : { own: value_u, shared: 0 };
  if (quantity === 'contact_time_ms') return contactTimeError(contacts, n, within);
  const errors = contacts.flatMap((contact) => uncertaintyOf(contact, quantity as ContactQuantity) ?? []);
  if (errors.length === 0) return null;
  return { own: field.shared_error ? rms(errors) : rms(errors) / Math.sqrt(n), shared: 0 };
}

function contactTimeError(contacts: readonly Contact[], n: number, within: boolean) {
  const known = contacts.filter((contact) => contact.contact_time_ms_u !== null);
  if (known.length === 0) return null;
  const repeatable = known.map((contact) => contact.contact_time_repeatable_ms ?? contact.contact_time_ms_u!);
  const own = rms(repeatable) / Math.sqrt(n);
  if (within) return { own, shared: 0 };
  const stays = known.map((contact, i) => Math.max(0, contact.contact_time_ms_u! ** 2 - repeatable[i] ** 2));
  const feet = new Set(known.map((contact) => contact.side)).size;
  return { own, shared: Math.sqrt(stays.reduce((sum, square) => sum + square, 0) / stays.length / feet) };
}

function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);
}
