import { type Case, caseList, DEG, expectSensor, G, table } from './case-tools.ts';
import { type KnownRecording, makeSignal } from './make-signal.ts';

/** Straight line between the two samples of angular rate beside an instant; what the reader has to find in another way. */
function rateAt(times: number[], rates: number[][], time_s: number): (number | null)[] {
  const next = times.findIndex((other) => other >= time_s - 1e-9);
  if (next < 0) return [null, null, null];
  if (Math.abs(times[next] - time_s) < 1e-9) return rates[next];
  if (next === 0) return [null, null, null];
  const part = (time_s - times[next - 1]) / (times[next] - times[next - 1]);
  return [0, 1, 2].map((axis) => rates[next - 1][axis] + part * (rates[next][axis] - rates[next - 1][axis]));
}

interface Row {
  time_s: number;
  cells: string[];
}

const byTime = (rows: Row[]) => rows.sort((a, b) => a.time_s - b.time_s).map(({ cells }) => cells);
const fixed = (values: number[], per_si: number, decimals: number) =>
  values.map((value) => (value * per_si).toFixed(decimals));

/** Files whose rows hold acceleration or angular rate, never both. */
export function wovenCases(): Case[] {
  const { cases, read: add } = caseList({ time_s: 1e-4, acc_mps2: 1e-3, gyr_radps: 4e-4 });

  let s = makeSignal(901);
  const plainRows = (signal: KnownRecording, acc: string, gyr: string, before: string[] = []) =>
    signal.time_s.flatMap((t, row) => [
      { time_s: t, cells: [...before, acc, t.toFixed(4), ...fixed(signal.acc[row], 1, 4)] },
      { time_s: t + 1e-9, cells: [...before, gyr, t.toFixed(4), ...fixed(signal.gyr[row], 1, 5)] },
    ]);
  add(
    'woven-by-a-column',
    table({ header: ['sensor', 'time_s', 'x', 'y', 'z'], rows: byTime(plainRows(s, 'ACC', 'GYRO')) }),
    'A column says whether a row is acceleration or angular rate; both at the same instants.',
    [expectSensor(s)],
    { layout: { quantity_column: 0 } },
  );

  s = makeSignal(902);
  add(
    'woven-with-empty-cells',
    table({
      header: ['t', 'acc_x_g', 'acc_y_g', 'acc_z_g', 'gyr_x_dps', 'gyr_y_dps', 'gyr_z_dps'],
      rows: s.time_s.flatMap((t, row) => [
        [t.toFixed(4), ...fixed(s.acc[row], 1 / G, 5), '', '', ''],
        [t.toFixed(4), '', '', '', ...fixed(s.gyr[row], 1 / DEG, 3)],
      ]),
    }),
    'Acceleration and angular rate in turn, the cells of the other empty.',
    [expectSensor(s)],
    { layout: { rows_alternate: true } },
  );

  // The gyroscope has instants of its own: a quarter of a step later, and at half the rate.
  s = makeSignal(903, 200, 140, 80);
  const own = s.time_s.filter((_, row) => row % 2 === 0).map((t) => t + 0.00125);
  const rates = own.map((t) => [0, 1, 2].map((axis) => 2 * Math.sin(9 * t + axis)));
  const between = (signal: KnownRecording, times = own, values = rates) => {
    const expectation = expectSensor(signal);
    for (const row of expectation.rows) row.gyr_radps = rateAt(times, values, signal.time_s[row.row]);
    return expectation;
  };
  const twoRates = [
    ...s.time_s.map((t, row) => ({ time_s: t, cells: [`${Math.round(t * 1e5)}`, 'acc', ...fixed(s.acc[row], 1, 4)] })),
    ...own.map((t, row) => ({ time_s: t, cells: [`${Math.round(t * 1e5)}`, 'gyr', ...fixed(rates[row], 1 / DEG, 3)] })),
  ];
  add(
    'woven-at-two-rates',
    table({
      preamble: ['# clock: 100000 ticks per second'],
      header: ['ticks', 'kind', 'x', 'y', 'z'],
      rows: byTime(twoRates),
    }),
    'The angular rate at half the rate and other instants: the straight line between its neighbours.',
    [between(s)],
  );

  // Rates are missing for 40 ms: nothing is drawn across.
  s = makeSignal(904, 200, 140, 80);
  const gone = (t: number) => t > 0.6 && t < 0.64;
  const withGap = expectSensor(s);
  for (const row of withGap.rows) if (gone(s.time_s[row.row])) row.gyr_radps = [null, null, null];
  add(
    'woven-with-a-gap-in-the-rate',
    table({
      header: ['time_ms', 'what', 'x', 'y', 'z'],
      rows: byTime(
        s.time_s.flatMap((t, row) => [
          { time_s: t, cells: [(1000 * t).toFixed(1), 'accelerometer', ...fixed(s.acc[row], 1, 4)] },
          ...(gone(t)
            ? []
            : [{ time_s: t + 1e-9, cells: [(1000 * t).toFixed(1), 'gyroscope', ...fixed(s.gyr[row], 1, 5)] }]),
        ]),
      ),
    }),
    'Rows of angular rate are missing for a while: so is the angular rate, and nothing else.',
    [withGap],
  );

  // Both feet and both quantities in one column, rows of a magnetometer between.
  const [l, r] = [makeSignal(905, 100), makeSignal(906, 100)];
  const of = (signal: KnownRecording, name: string) => plainRows(signal, `${name}_ACC`, `${name}_GYR`);
  add(
    'woven-of-both-feet',
    table({
      delimiter: ';',
      header: ['stream', 'time_s', 'x', 'y', 'z'],
      rows: byTime([
        ...of(l, 'LEFT'),
        ...of(r, 'RIGHT'),
        ...l.time_s
          .filter((_, row) => row % 10 === 0)
          .map((t) => ({ time_s: t, cells: ['LEFT_MAG', t.toFixed(4), '21.5', '-3.1', '40.2'] })),
      ]),
    }),
    'One column names foot and quantity; a magnetometer is passed over.',
    [expectSensor(l, { side: 'left' }), expectSensor(r, { side: 'right' })],
    { faults: ['ROWS_PASSED_OVER'] },
  );

  s = makeSignal(907, 100);
  add(
    'woven-with-units-beside',
    table({
      header: ['foot', 'time_s', 'quantity', 'unit', 'v1', 'v2', 'v3'],
      rows: s.time_s.flatMap((t, row) => [
        ['left', t.toFixed(4), 'a', 'mg', ...fixed(s.acc[row], 1000 / G, 2)],
        ['left', t.toFixed(4), 'g', 'deg/s', ...fixed(s.gyr[row], 1 / DEG, 3)],
      ]),
    }),
    'Foot, quantity and unit in columns of their own, axes without names.',
    [expectSensor(s, { side: 'left' })],
  );

  s = makeSignal(908, 100);
  add(
    'one-quantity-of-several',
    table({
      header: ['type', 'time_s', 'x', 'y', 'z'],
      rows: s.time_s.flatMap((t, row) => [
        ['Acceleration', t.toFixed(4), ...fixed(s.acc[row], 1, 4)],
        ...(row % 4 === 0 ? [['Orientation', t.toFixed(4), '12.1', '80.2', '-3.0']] : []),
      ]),
    }),
    'Acceleration and something else in one table: the something else is passed over.',
    [expectSensor(s, { gyr: false })],
    { faults: ['ROWS_PASSED_OVER'] },
  );
  return cases;
}
