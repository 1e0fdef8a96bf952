import type { SignalColumn, SignalWindow } from '../../../shared/signal-wire.ts';

export const SIGNAL_VIEWS = ['acc', 'acc_axes', 'gyr_axes'] as const;
export type SignalViewName = (typeof SIGNAL_VIEWS)[number];

interface SignalViewDefinition {
  unit: string;
  /** Whose full scale counts. */
  kind: 'acc' | 'gyr';
  columns: { column: SignalColumn; label: string }[];
  factor: number;
}

/** What of the signal is drawn: size of the acceleration, its axes, or the axes of rotation. */
export const SIGNAL_VIEW: Record<SignalViewName, SignalViewDefinition> = {
  acc: {
    unit: 'm/s²',
    kind: 'acc',
    columns: [{ column: 'acc_norm_mps2', label: '' }],
    factor: 1,
  },
  acc_axes: {
    unit: 'm/s²',
    kind: 'acc',
    columns: [
      { column: 'acc_x_mps2', label: 'x' },
      { column: 'acc_y_mps2', label: 'y' },
      { column: 'acc_z_mps2', label: 'z' },
    ],
    factor: 1,
  },
  gyr_axes: {
    unit: 'deg/s',
    kind: 'gyr',
    columns: [
      { column: 'gyr_x_radps', label: 'x' },
      { column: 'gyr_y_radps', label: 'y' },
      { column: 'gyr_z_radps', label: 'z' },
    ],
    factor: 180 / Math.PI,
  },
};

/** Columns as the plot wants them: seconds first, then values in the shown unit; null where nothing was measured. */
export function plotColumns(signal: SignalWindow, view: SignalViewName): (number | null)[][] {
  const { header, columns } = signal;
  const { factor } = SIGNAL_VIEW[view];
  const time = columns.time_s ?? new Float32Array(header.count);
  const shown = SIGNAL_VIEW[view].columns.map(({ column }) => columns[column]);
  const rows: (number | null)[][] = [[], ...shown.map(() => [])];
  let last = header.recording_from_s;
  for (let i = 0; i < header.count; i++) {
    // A gap's row has no time of its own: it stands right behind the last sample.
    const at = Number.isNaN(time[i]) ? last : header.origin_s + time[i];
    last = at;
    rows[0].push(at);
    for (let c = 0; c < shown.length; c++) {
      const value = shown[c]?.[i];
      rows[c + 1].push(value === undefined || Number.isNaN(value) ? null : value * factor);
    }
  }
  return rows;
}
