import { sampleAt } from '../signals/sensor-time.ts';
import { because, type Reason } from '../../shared/reason.ts';
import type { Contact } from '../../shared/analysis.ts';
import {
  added,
  at,
  integrateRotation,
  type Orientations,
  turn,
  turnBack,
  unit,
  type Vector3,
  without,
} from '../numeric/rotation.ts';
import type { StrideSettings } from '../settings/strides.ts';
import { type FootStride, integrateStride } from './foot-stride.ts';
import { restInstant } from './rest-instants.ts';
import type { StrideContext } from './stride-context.ts';

/** One contact of one foot with what the foot's sensor says of it. */
export interface TrackedContact {
  row: Contact;
  /** Next contact of the same foot within the repetition, without one missing between. */
  next: TrackedContact | null;
  /** Sample of rest; null when it has none. */
  rest: number | null;
  /** Samples of touchdown and toe-off. */
  touchdown: number;
  toe_off: number | null;
  /** Stride to the next contact, or why there is none. */
  stride: FootStride | { reason: Reason };
  /** Vertical and direction of travel in the sensor's axes at `rest`; null when no neighbouring stride gives them. */
  up: Vector3 | null;
  forward: Vector3 | null;
}

type Sensor = StrideContext['sensors'][number];

/** Follows one foot through a repetition, from rest to rest. Only for sensors on the foot. */
export function trackFoot(rows: Contact[], sensor: Sensor, settings: StrideSettings): TrackedContact[] {
  const { recording, signals } = sensor;
  const toIndex = (common_s: number): number => sampleAt(common_s, sensor);
  const tracked = rows
    .filter((row) => row.side === recording.side)
    .map((row): TrackedContact => {
      const touchdown = toIndex(row.touchdown_s);
      const toe_off = row.toe_off_s === null ? null : toIndex(row.toe_off_s);
      const seconds = (index: number): number => signals.start_s + index / signals.rate_hz;
      const rest = toe_off === null ? null : restInstant(signals, seconds(touchdown), seconds(toe_off), settings);
      return { row, next: null, rest, touchdown, toe_off, stride: { reason: '' }, up: null, forward: null };
    });
  tracked.forEach((contact, i) => {
    const next = tracked[i + 1] ?? null;
    // Where there is a stride time, no contact is missing between.
    const near = next !== null && contact.row.stride_time_ms !== null;
    contact.next =
      near && next.row.touchdown_s - contact.row.touchdown_s < settings.foot.longest_stride_s ? next : null;
    if (!contact.next) contact.stride = { reason: because('no_next_contact_of_this_foot') };
    else if (contact.rest === null || contact.next.rest === null) {
      contact.stride = { reason: signals.gyr_radps ? because('foot_not_at_rest') : because('no_gyroscope') };
    } else {
      contact.stride = integrateStride(
        signals,
        contact.rest,
        contact.next.rest,
        recording.samples.acc_range_mps2,
        settings,
      );
    }
  });
  tracked.forEach((contact, i) => {
    const before = tracked[i - 1]?.next === contact ? tracked[i - 1].stride : null;
    const after = contact.stride;
    const parts: { up: Vector3; forward: Vector3 }[] = [];
    if (before && 'up_at_end' in before) parts.push({ up: before.up_at_end, forward: before.forward_at_end });
    if ('up' in after) parts.push(after);
    if (parts.length === 0) return;
    contact.up = unit(parts.map((p) => p.up).reduce(added));
    contact.forward = unit(without(parts.map((p) => p.forward).reduce(added), contact.up));
  });
  return tracked;
}

/** Rotation over a contact and a little around it, with vectors of `rest` as the reference. */
export interface ContactRotation {
  orientations: Orientations;
  /** Takes a vector from the sensor's axes at a sample to those at the contact's rest. */
  toRest: (index: number, v: Vector3) => Vector3;
}

/**
 * Orientation from just before touchdown to just after toe-off, against the rest.
 * @returns null where samples are missing or clipped
 */
export function contactRotation(contact: TrackedContact, signals: Sensor['signals']): ContactRotation | null {
  const gyr = signals.gyr_radps;
  if (!gyr || contact.rest === null || contact.toe_off === null) return null;
  const from = Math.max(0, Math.floor(contact.touchdown) - 1);
  const to = Math.min(signals.length - 1, Math.ceil(contact.toe_off) + 1);
  for (let i = from; i <= to; i++) {
    if (signals.gyr_clipped[i] || !Number.isFinite(at(gyr, i)[0])) return null;
  }
  const orientations = integrateRotation(gyr, signals.rate_hz, from, to);
  const rest = contact.rest;
  return {
    orientations,
    toRest: (index, v) => turnBack(orientations, rest, turn(orientations, index, v)),
  };
}
