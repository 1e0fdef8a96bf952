import { expect, test } from 'vitest';
import type { SignalHeader, SignalWindow } from '../../shared/signal-wire.ts';
import { clippedStretches } from '../../web/pages/repetition/draw-faults.ts';

const header: SignalHeader = {
  side: 'left',
  count: 8,
  columns: ['time_s', 'acc_x_mps2', 'acc_y_mps2', 'acc_z_mps2', 'acc_norm_mps2'],
  origin_s: 10,
  thinned: false,
  recording_from_s: 0,
  recording_to_s: 20,
  sampling_rate_hz: 500,
  acc_range_mps2: 80,
  gyr_range_radps: null,
};
const flat = new Float32Array(8);
const signal: SignalWindow = {
  header,
  columns: {
    time_s: Float32Array.from({ length: 8 }, (_, i) => i * 0.002),
    acc_x_mps2: Float32Array.from([0, 80, 80, 5, 5, 5, -79.9, Number.NaN]),
    acc_y_mps2: flat,
    acc_z_mps2: flat,
    acc_norm_mps2: Float32Array.from({ length: 8 }, () => 200),
  },
};

test('readings at either end of the range are marked, neighbours as one stretch, on the common clock', () => {
  const stretches = clippedStretches(signal, 'acc');
  expect(stretches.map(({ from_s, to_s }) => [from_s, to_s].map((s) => Number(s.toFixed(4))))).toEqual([
    [10.002, 10.004],
    [10.012, 10.012],
  ]);
});

test('where the range is not known nothing is marked, however large the readings', () => {
  expect(clippedStretches(signal, 'gyr')).toEqual([]);
  expect(clippedStretches({ ...signal, header: { ...header, acc_range_mps2: null } }, 'acc')).toEqual([]);
});
