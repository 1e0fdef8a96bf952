import { readUnit } from '../../../ingest/csv/columns/units.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import { unreadable } from './read-motion-bids.ts';
import type { Channel, ChosenPoint } from './tracked-points.ts';

/** What the sidecars say of one motion file. */
export interface MotionFacts {
  file: string;
  channels: Channel[];
  /** Rate of the sidecar, else of the channels; null where neither tells. */
  rate_hz: number | null;
}

/**
 * How a motion file's columns are read: by its channels file, in its units; there is no header row.
 * @throws FaultError DATASET_UNREADABLE where a chosen point lacks acceleration, a unit is none, or neither time nor rate is told
 */
export function layoutOf({ file, channels, rate_hz }: MotionFacts, points: ChosenPoint[]): LayoutCorrection {
  const axes = (type: string, point: string) => {
    const found = ['x', 'y', 'z'].map((component) =>
      channels.findIndex(
        (c) => c.type === type && c.tracked_point === point && c.component?.toLowerCase() === component,
      ),
    );
    return found.includes(-1) ? null : (found as [number, number, number]);
  };
  const triple = (type: string, point: string, kind: 'acc' | 'gyr', si: string) => {
    const columns = axes(type, point);
    if (!columns) return null;
    const written = [...new Set(columns.map((column) => channels[column].units ?? 'n/a'))].join(', ');
    const unit = readUnit(written === 'n/a' ? si : written);
    if (unit?.kind !== kind) throw unreadable('unit', file, { channel: type, unit: written });
    return { columns, signs: [1, 1, 1] as [number, number, number], unit: unit.unit, to_si: unit.to_si };
  };
  const latency = channels.findIndex((channel) => channel.type === 'LATENCY');
  if (latency < 0 && rate_hz === null) throw unreadable('no_rate', file);
  return {
    text: { delimiter: '\t', decimal_mark: '.', header_row: false, units_row: false, missing_values: ['n/a'] },
    time:
      latency >= 0
        ? { kind: 'number', columns: [latency], seconds_per_unit: readUnit(channels[latency].units ?? 's')?.to_si || 1 }
        : { kind: 'rows', columns: [], rate_hz },
    sensors: points.map(({ name, side }) => {
      const acc = triple('ACCEL', name, 'acc', 'm/s^2');
      if (!acc) throw unreadable('no_acceleration', file);
      // One point's side comes with its file; both feet in one file are told by their names.
      return {
        side: points.length === 1 ? 'unknown' : side,
        side_value: null,
        acc,
        gyr: triple('GYRO', name, 'gyr', 'rad/s'),
      };
    }),
  };
}
