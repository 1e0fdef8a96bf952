import { because, type Reason } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import { CONTACT_COLUMNS } from '../../shared/fields.ts';
import type { Mounting, Side } from '../../shared/words.ts';
import { ramp } from '../numeric/ramp.ts';
import type { FootContact } from '../events/foot-contact.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

const MS = 1000;

/** A foot contact on the common clock, with the side it belongs to. */
export interface SidedContact extends FootContact {
  mounting: Mounting;
  side: Side;
}

/** Every field of a contact, in the order of columns, not measurable yet. */
const EMPTY = Object.fromEntries(CONTACT_COLUMNS.map((name) => [name, null])) as Record<NullableField, null>;
type NullableField = { [Name in keyof Contact]: null extends Contact[Name] ? Name : never }[keyof Contact];

/**
 * One row of the result with its instants filled in and everything that needs neighbours still empty.
 * @param repetition number of the repetition, from 1
 * @param step number of the contact in it, from 1
 */
export function contactRow(contact: SidedContact, repetition: number, step: number): Contact {
  const { touchdown_s, toe_off_s, contact_time_s_u, contact_time_s_repeatable_u: repeatable_s } = contact;
  return {
    ...EMPTY,
    repetition,
    step,
    side: contact.side,
    touchdown_s,
    toe_off_s,
    contact_time_ms: toe_off_s === null ? null : (toe_off_s - touchdown_s) * MS,
    confidence: contact.confidence,
    touchdown_s_u: contact.touchdown_s_u,
    toe_off_s_u: contact.toe_off_s_u,
    contact_time_ms_u: toe_off_s === null || contact_time_s_u === null ? null : contact_time_s_u * MS,
    contact_time_repeatable_ms: toe_off_s === null || repeatable_s === null ? null : repeatable_s * MS,
    touchdown_raw_s: contact.touchdown_raw_s,
    toe_off_raw_s: contact.toe_off_raw_s,
    assumes_symmetry: false,
    reasons: { ...contact.reasons },
  };
}

/**
 * Takes away what a slow recording cannot tell: below the rate that a contact time needs, and of a contact that fills too few samples,
 * toe-off and everything built on it stay empty. A touchdown is then no better than a part of the sample interval: what the sensor's own
 * low-pass makes of an impact is not known.
 * @param row changed in place, before step times are filled in
 * @param rate_hz samples a second of the recording
 */
export function limitToRate(row: Contact, rate_hz: number, settings: AnalysisSettings): void {
  const { rate_for_contact_time_hz: least_hz, samples_for_contact_time: least, few_samples } = settings.quality;
  if (rate_hz < least_hz) {
    row.touchdown_s_u = Math.hypot(row.touchdown_s_u ?? 0, 0.5 / rate_hz);
    withoutToeOff(row, because('rate_too_low', { rate_hz, least_hz }));
    return;
  }
  if (row.contact_time_ms === null) return;
  const samples = (row.contact_time_ms / MS) * rate_hz;
  const coarse_s = (few_samples.intervals * ramp(samples, few_samples.from, few_samples.to)) / rate_hz;
  if (coarse_s === 0) return;
  row.touchdown_s_u = Math.hypot(row.touchdown_s_u ?? 0, coarse_s);
  if (row.contact_time_ms_u !== null) row.contact_time_ms_u = Math.hypot(row.contact_time_ms_u, coarse_s * MS);
  if (samples < least)
    withoutToeOff(row, because('contact_of_few_samples', { samples: Math.round(10 * samples) / 10, least }));
}

/**
 * Takes a toe-off away that shows so roughly that the contact time says nothing; what is known of the touchdown stays.
 * @param row changed in place, before step times are filled in
 */
export function withoutRoughToeOff(row: Contact, settings: AnalysisSettings): void {
  const u_ms = row.contact_time_ms_u;
  if (u_ms === null || u_ms <= settings.quality.rough_contact_time_ms) return;
  withoutToeOff(row, row.reasons.toe_off_s ?? because('toe_off_rough', { u_ms: Math.round(u_ms) }));
}

/** Takes toe-off and everything built on it away. @param row changed in place, before step times are filled in */
export function withoutToeOff(row: Contact, why: Reason): void {
  row.toe_off_s = null;
  row.toe_off_s_u = null;
  row.toe_off_raw_s = null;
  row.contact_time_ms = null;
  row.contact_time_ms_u = null;
  row.contact_time_repeatable_ms = null;
  for (const field of ['toe_off_s', 'contact_time_ms', 'flight_time_ms', 'swing_time_ms', 'duty_factor']) {
    row.reasons[field] = why;
  }
}
