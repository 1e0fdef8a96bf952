import { topSpeed } from './top-speed.ts';
import { isStretchAtSpeed } from '../../shared/at-speed.ts';
import type {
  Contact,
  ContactQuantity,
  MissingContacts,
  QuantitySummary,
  RepetitionSummary,
} from '../../shared/analysis.ts';
import { CONTACT_FIELDS, type ContactField, SUMMARY_QUANTITIES, uncertaintyOf } from '../../shared/fields.ts';

/**
 * Mean, standard deviation between contacts (n - 1) and standard uncertainty of the mean: scatter of the mean,
 * sd / sqrt(n), which already holds the independent part of the measurement error, and the part that all contacts share.
 * With one contact, its own.
 * @returns in the unit of the quantity; null where no contact has it
 */
export function summariseQuantity(rows: Contact[], quantity: ContactQuantity): QuantitySummary | null {
  const values: number[] = [];
  const errors: number[] = [];
  for (const row of rows) {
    const value = row[quantity];
    if (value === null) continue;
    values.push(value);
    const u = uncertaintyOf(row, quantity);
    if (u !== null) errors.push(u);
  }
  const n = values.length;
  if (n === 0) return null;
  const mean = values.reduce((a, b) => a + b, 0) / n;
  const sd = n > 1 ? Math.sqrt(values.reduce((a, b) => a + (b - mean) ** 2, 0) / (n - 1)) : 0;
  const measurement = errors.length > 0 ? Math.sqrt(errors.reduce((a, b) => a + b * b, 0) / errors.length) : 0;
  const scatter = Math.max(sd, measurement) / Math.sqrt(n);
  const { shared_error }: ContactField = CONTACT_FIELDS[quantity];
  return { mean, sd, mean_u: shared_error ? Math.hypot(sd / Math.sqrt(n), measurement) : scatter, n };
}

function summariseRows(rows: Contact[]): Partial<Record<ContactQuantity, QuantitySummary>> {
  const out: Partial<Record<ContactQuantity, QuantitySummary>> = {};
  for (const quantity of SUMMARY_QUANTITIES) {
    const summary = summariseQuantity(rows, quantity);
    if (summary) out[quantity] = summary;
  }
  return out;
}

/**
 * Summary of one repetition over all contacts, those at speed, and each side.
 * @param extent distance in m and time in s of the repetition, whether speed was steady, contacts that are missing
 */
export function summariseRepetition(
  rows: Contact[],
  extent: { distance_m: number | null; time_s: number | null; steady: boolean; missing?: MissingContacts[] },
): RepetitionSummary {
  const { missing = [] } = extent;
  const fast = extent.steady ? rows : rows.filter((row) => row.phase === 'maximum speed');
  const at_speed = summariseRows(fast);
  // Left and right are compared over the stretch that the means rest on: slowing would drown the difference.
  const compared = isStretchAtSpeed(at_speed) ? fast : rows;
  const { speed_max_mps, speed_max_mps_u } = topSpeed(rows);
  return {
    contacts: rows.length,
    contacts_missing: missing.reduce((sum, { contacts }) => sum + contacts, 0),
    missing,
    all: summariseRows(rows),
    at_speed,
    left: summariseRows(compared.filter((row) => row.side === 'left')),
    right: summariseRows(compared.filter((row) => row.side === 'right')),
    speed_max_mps,
    speed_max_mps_u,
    distance_m: extent.distance_m,
    time_s: extent.time_s,
  };
}
