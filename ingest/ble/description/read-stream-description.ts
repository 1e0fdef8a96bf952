import { FaultError, fault } from '../../../shared/fault.ts';
import { notice } from '../../../shared/notice.ts';
import type { DescriptionRemark } from '../../../shared/description-remark.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { streamFaults } from './check-streams.ts';
import { descriptionWarnings } from './description-warnings.ts';
import { schemaFaults } from './schema-faults.ts';

export interface CheckedDescription {
  /** Null where there are faults. */
  description: StreamDescription | null;
  faults: DescriptionRemark[];
  /** Allowed, but will cost something. */
  warnings: DescriptionRemark[];
}

/** Checks a description as it is being written: every fault at its place, in words. */
export function checkDescription(text: string): CheckedDescription {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return {
      description: null,
      faults: [{ field: '', words: notice('remark_not_json', { why: (error as Error).message }) }],
      warnings: [],
    };
  }
  const by_schema = schemaFaults(value);
  if (by_schema.length > 0) return { description: null, faults: by_schema, warnings: [] };
  const description = value as StreamDescription;
  const faults = [...streamFaults(description), ...valueFaults(description)];
  if (faults.length > 0) return { description: null, faults, warnings: [] };
  return { description, faults, warnings: descriptionWarnings(description) };
}

/**
 * Reads and checks a stream description.
 * @param source file name or other words for where it came from; goes into the error
 * @param text JSON
 * @throws FaultError STREAM_DESCRIPTION_INVALID naming every field that is wrong
 */
export function readStreamDescription(source: string, text: string): StreamDescription {
  const { description, faults } = checkDescription(text);
  if (description !== null) return description;
  const remarks = faults.map(({ field, words }) => ({ field, words }));
  throw new FaultError(
    fault('STREAM_DESCRIPTION_INVALID.fields', { source, faults: remarks }, { source, field: faults[0].field }),
  );
}

function valueFaults(description: StreamDescription): DescriptionRemark[] {
  const faults: DescriptionRemark[] = [];
  for (const name of ['acc', 'gyr'] as const) {
    const quantity = description[name];
    if (quantity === null) continue;
    if (determinant(quantity.axes) !== 1) {
      faults.push({ field: `/${name}/axes`, words: notice('remark_mirror') });
    }
    const scales = quantity.ranges.map((range) => range.full_scale);
    if (new Set(scales).size !== scales.length)
      faults.push({ field: `/${name}/ranges`, words: notice('remark_twice', { name: 'full_scale' }) });
  }
  const rates = description.rates.map((rate) => rate.rate_hz);
  if (new Set(rates).size !== rates.length)
    faults.push({ field: '/rates', words: notice('remark_twice', { name: 'rate_hz' }) });
  const { battery, connection } = description;
  if (battery && battery.full_v <= battery.empty_v) {
    faults.push({ field: '/battery/full_v', words: notice('remark_full_above_empty', { empty_v: battery.empty_v }) });
  }
  const in_volts = [description.packet, ...(description.further_streams ?? []).map((stream) => stream.packet)].some(
    ({ header, trailer = [] }) => [...header, ...trailer].some((entry) => entry.field === 'battery_volts'),
  );
  if (in_volts && battery === undefined) {
    faults.push({ field: '', words: notice('remark_battery_missing') });
  }
  if (connection?.code !== undefined && connection.bonding !== 'with_code') {
    faults.push({ field: '/connection/code', words: notice('remark_code_without_bonding') });
  }
  return faults;
}

/** Of the signed permutation matrix; 1 for a rotation, -1 for a mirror image, 0 when an axis is used twice. */
function determinant(axes: { x: string; y: string; z: string }): number {
  const rows = [axes.x, axes.y, axes.z].map((axis) =>
    ['x', 'y', 'z'].map((name) => (axis[1] === name ? (axis[0] === '-' ? -1 : 1) : 0)),
  );
  const [a, b, c] = rows;
  return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
}
