import {
  type Case,
  caseList,
  DEG,
  expectSensor,
  G,
  pad,
  PLAIN,
  seconds,
  signalsFrom,
  SIX,
  sixAxes,
  table,
} from './case-tools.ts';

const DAY_S = 50_602;
const START = '2026-11-25T14:03:22.000Z';

/** Shapes met when files were invented to break the reader. Each was misread, or refused without need, before it came here. */
export function unseenCases(): Case[] {
  const { cases, read, refuse } = caseList();
  const signal = signalsFrom(950);

  let s = signal();
  read(
    'date-clock-and-milliseconds',
    table({
      header: ['date', 'time', 'ms', ...SIX],
      rows: sixAxes(s, seconds(s)).map(([, ...six], row) => {
        const t = DAY_S + s.time_s[row];
        return [
          '2026-11-25',
          `${pad(t / 3600)}:${pad((t / 60) % 60)}:${pad(t % 60)}`,
          String(Math.round((t % 1) * 1000) % 1000),
          ...six,
        ];
      }),
    }),
    'Date, clock and milliseconds in three columns.',
    [expectSensor(s, { start_utc: START })],
    { layout: { time: { kind: 'date_and_clock', fraction: { column: 2, seconds_per_unit: 0.001 } } } },
  );

  s = signal();
  read(
    'seconds-and-microseconds',
    table({
      header: ['tv_sec', 'tv_usec', ...SIX],
      rows: sixAxes(s, seconds(s)).map(([, ...six], row) => {
        const us = Math.round(s.time_s[row] * 1e6) + 850_000;
        return [String(1_795_615_402 + Math.floor(us / 1e6)), String(us % 1e6), ...six];
      }),
    }),
    'Unix seconds and microseconds in two columns.',
    [expectSensor(s, { start_utc: '2026-11-25T14:03:22.850Z' })],
  );

  s = signal();
  read(
    'minutes-and-seconds',
    table({
      header: ['time', 'ax', 'ay', 'az', 'gx', 'gy', 'gz'],
      rows: sixAxes(
        s,
        (row) => {
          const t = 3599.6 + s.time_s[row];
          return `${pad((t / 60) % 60)}:${pad(t % 60)}.${pad(Math.round((t % 1) * 1000) % 1000, 3)}`;
        },
        { per_si: 1, decimals: 4 },
        { per_si: 1 / DEG, decimals: 3 },
      ),
    }),
    'A stopwatch: minutes and seconds, starting again with the hour.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'basic-iso-stamps',
    table({
      header: ['utc', ...SIX],
      rows: sixAxes(s, (row) => {
        const t = DAY_S + s.time_s[row];
        return `20261125T${pad(t / 3600)}${pad((t / 60) % 60)}${pad(t % 60)}.${pad(Math.round((t % 1) * 1000) % 1000, 3)}Z`;
      }),
    }),
    'ISO 8601 in its basic form, without marks between.',
    [expectSensor(s, { start_utc: START })],
  );

  s = signal();
  read(
    'interval-since-the-row-before',
    table({ header: ['dt_ms', ...SIX], rows: sixAxes(s, (row) => (row === 0 ? '0' : '5')) }),
    'No stamps, but the time since the row before.',
    [expectSensor(s)],
    { layout: { time: { kind: 'interval', seconds_per_unit: 0.001 } } },
  );

  s = signal();
  read(
    'stamp-on-the-first-row-of-a-packet',
    table({ header: PLAIN, rows: sixAxes(s, (row) => (row % 10 === 0 ? s.time_s[row].toFixed(3) : '')) }),
    'Only the first row of each packet carries a stamp.',
    [expectSensor(s)],
    { layout: { time: { carried: true } } },
  );

  s = signal();
  read(
    'rate-in-a-column-name',
    table({ header: ['sample (200 Hz)', ...SIX], rows: sixAxes(s, String) }),
    'A counter whose name carries the rate.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'interval-in-the-preamble',
    table({
      preamble: ['Sampling interval: 5 ms', 'Channels: 6'],
      header: SIX,
      rows: sixAxes(s, seconds(s)).map((cells) => cells.slice(1)),
    }),
    'The preamble gives the interval, not the rate.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'blank-lines-between-rows',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)), newline: '\r\r\n' }),
    'Line ends doubled by a transfer: every second line is blank.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'typographic-minus',
    table({
      header: PLAIN,
      rows: sixAxes(s, seconds(s)).map((cells) => cells.map((cell) => cell.replace('-', '\u2212'))),
    }),
    'Minus signs as a typesetter writes them.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'grouped-thousands',
    table({
      header: ['time_ms', ...SIX],
      rows: sixAxes(
        s,
        (row) => `"${(998_900 + 1000 * s.time_s[row]).toLocaleString('en-US', { minimumFractionDigits: 2 })}"`,
      ),
    }),
    'Thousands parted by commas, in quotes.',
    [expectSensor(s)],
  );

  s = signal();
  const worn = sixAxes(s, seconds(s));
  worn[20][4] = 'NA';
  worn[40][5] = '-';
  worn[60][6] = '#N/A';
  const holes = expectSensor(s);
  for (const row of holes.rows) if (row.row === 40) throw new Error('a checked row has a hole');
  read('words-for-missing', table({ header: PLAIN, rows: worn }), 'Usual words for a missing value.', [holes]);

  s = signal();
  const [l, r] = [signal(), signal()];
  const both = (left: string, right: string) =>
    sixAxes(l, seconds(l)).flatMap((cells, row) => [
      [left, ...cells],
      [right, ...sixAxes(r, seconds(r))[row]],
    ]);
  const feet = [expectSensor(l, { side: 'left' }), expectSensor(r, { side: 'right' })];
  read(
    'side-codes-in-the-column-name',
    table({ header: ['"foot (0=left, 1=right)"', ...PLAIN], rows: both('0', '1') }),
    'Numbers for the feet, explained in the name of their column.',
    feet,
  );
  read(
    'sensors-named-in-the-preamble',
    table({
      preamble: ['# 5E:01:A7 = left foot', '# 5E:01:B2 = right foot'],
      header: ['device', ...PLAIN],
      rows: both('5E:01:A7', '5E:01:B2'),
    }),
    'Addresses of the sensors, explained above the table.',
    feet,
  );
  read(
    'sides-told-by-layout',
    table({ header: ['device', ...PLAIN], rows: both('S-12', 'S-7') }),
    'Numbers of the sensors, explained in a layout.',
    feet,
    {},
    { layout: { side_values: { 'S-12': 'left', 'S-7': 'right' } } },
  );

  read(
    'counts-beside-scaled',
    table({
      header: ['time_s', 'acc_x_raw', 'acc_y_raw', 'acc_z_raw', 'acc_x_g', 'acc_y_g', 'acc_z_g'],
      rows: s.time_s.map((t, row) => [
        t.toFixed(4),
        ...s.acc[row].map((value) => String(Math.round((value / G) * 2048))),
        ...s.acc[row].map((value) => (value / G).toFixed(5)),
      ]),
    }),
    'Counts and the same with a unit: the unit wins.',
    [expectSensor(s, { gyr: false })],
  );

  s = signal();
  read(
    'filtered-beside-raw',
    table({
      header: ['time_s', 'acc_x_filt', 'acc_y_filt', 'acc_z_filt', 'acc_x', 'acc_y', 'acc_z'],
      rows: s.time_s.map((t, row) => [
        t.toFixed(4),
        ...s.acc[Math.max(0, row - 2)].map((value) => value.toFixed(4)),
        ...s.acc[row].map((value) => value.toFixed(4)),
      ]),
    }),
    'A filtered version before the raw one: what the sensor read is taken.',
    [expectSensor(s, { gyr: false })],
  );

  s = signal();
  const gravity = s.acc[0];
  read(
    'gravity-in-columns-of-its-own',
    table({
      header: ['t', 'gravity_x', 'gravity_y', 'gravity_z', 'user_acc_x', 'user_acc_y', 'user_acc_z'],
      rows: s.time_s.map((t, row) => [
        t.toFixed(4),
        ...gravity.map((value) => (value / G).toFixed(6)),
        ...s.acc[row].map((value, axis) => ((value - gravity[axis]) / G).toFixed(6)),
      ]),
    }),
    'Gravity taken off and written beside: both are added up.',
    [expectSensor(s, { gyr: false })],
  );

  s = signal();
  read(
    'quantities-by-number',
    table({
      header: ['type', 'time_ms', 'x', 'y', 'z'],
      rows: s.time_s.flatMap((t, row) => [
        ['1', (1000 * t).toFixed(1), ...s.acc[row].map((value) => value.toFixed(4))],
        ['4', (1000 * t).toFixed(1), ...s.gyr[row].map((value) => (value / DEG).toFixed(3))],
      ]),
    }),
    'Numbers for the quantity of a row: told by what rests at 1 g and what rests at zero.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'revolutions-and-gal',
    table({
      header: [
        'time_s',
        ...['x', 'y', 'z'].map((axis) => `acc_${axis} [cm/s^2]`),
        ...['x', 'y', 'z'].map((axis) => `gyr_${axis} [rev/s]`),
      ],
      rows: sixAxes(s, seconds(s), { per_si: 100, decimals: 2 }, { per_si: 1 / (2 * Math.PI), decimals: 6 }),
    }),
    'Centimetres and revolutions.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'axes-counted-from-zero',
    table({
      header: ['t', 'acc[0]', 'acc[1]', 'acc[2]', 'gyr[0]', 'gyr[1]', 'gyr[2]'],
      rows: sixAxes(s, seconds(s), undefined, { per_si: 1 / DEG, decimals: 3 }),
    }),
    'Axes counted from zero.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'vertical-is-no-volt',
    table({
      header: ['t', 'acc_AP', 'acc_ML', 'acc_V', 'gyr_AP', 'gyr_ML', 'gyr_V'],
      rows: sixAxes(s, seconds(s), undefined, { per_si: 1 / DEG, decimals: 3 }),
    }),
    'Axes by direction, the vertical one as V.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'month-by-its-name',
    table({
      header: ['time', ...SIX],
      rows: sixAxes(s, (row) => `25-Nov-2026 14:03:${(22 + s.time_s[row]).toFixed(3).padStart(6, '0')}`),
    }),
    'A date with the month as a word.',
    [expectSensor(s, { start_utc: START })],
  );

  s = signal();
  read(
    'clock-with-points',
    table({
      header: ['time', ...SIX],
      rows: sixAxes(s, (row) => `14.03.${(22 + s.time_s[row]).toFixed(3).padStart(6, '0')}`),
    }),
    'A clock with points between hours, minutes and seconds.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'gyroscope-of-zeros',
    table({
      header: PLAIN.slice(0, 4).concat(['gyr_x', 'gyr_y', 'gyr_z']),
      rows: sixAxes(s, seconds(s)).map((cells) => [...cells.slice(0, 4), '0', '0', '0']),
    }),
    'Columns of a gyroscope that was off.',
    [expectSensor(s, { gyr: false })],
    { faults: ['GYROSCOPE_DEAD'] },
  );

  s = signal();
  const rows = sixAxes(s, seconds(s));
  refuse(
    'ambiguous-the-same-names-twice',
    table({ header: ['time_s', ...SIX, ...SIX], rows: rows.map((cells) => [...cells, ...cells.slice(1)]) }),
    'Two sensors under the same names.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'sensor', fewest_choices: 2 },
  );
  refuse(
    'ambiguous-alpha-beta-gamma',
    table({
      header: ['time_s', 'acc_x', 'acc_y', 'acc_z', 'rate.alpha', 'rate.beta', 'rate.gamma'].map((name) =>
        name.replace('rate', 'rotationRate'),
      ),
      rows,
    }),
    'Rates named by angles, which makers put about different axes.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'gyroscope', fewest_choices: 2 },
  );
  refuse('newest-row-first', table({ header: PLAIN, rows: [...rows].reverse() }), 'The newest row first.', {
    code: 'RATE_MISSING',
  });
  refuse(
    'stamps-to-the-minute',
    table({ header: ['time', ...SIX], rows: rows.map(([, ...six]) => ['14:03', ...six]) }),
    'A clock that shows minutes.',
    { code: 'RATE_MISSING' },
  );
  refuse(
    'samples-side-by-side',
    table({
      header: ['t_ms', ...['1', '2'].flatMap((n) => ['ax', 'ay', 'az', 'gx', 'gy', 'gz'].map((name) => name + n))],
      rows: rows
        .filter((_, row) => row % 2 === 0)
        .map((cells, row) => [String(row * 10), ...cells.slice(1), ...rows[2 * row + 1].slice(1)]),
    }),
    'A packet of two samples in every row.',
    { code: 'SEVERAL_SAMPLES_A_ROW' },
  );
  refuse(
    'two-tables-in-one-file',
    `${table({ header: PLAIN.slice(0, 4), rows: rows.map((cells) => cells.slice(0, 4)) })}\n${table({ header: ['time_s', ...PLAIN.slice(4)], rows: rows.map((cells) => [cells[0], ...cells.slice(4)]) })}`,
    'Acceleration, and below it the angular rate, each with its names.',
    { code: 'TOO_MANY_BAD_ROWS' },
  );
  refuse(
    'lines-of-json',
    rows
      .slice(0, 40)
      .map((cells) => JSON.stringify(Object.fromEntries(PLAIN.map((name, i) => [name, +cells[i]]))))
      .join('\n'),
    'JSON.',
    { code: 'NOT_A_RECORDING' },
  );
  refuse(
    'one-value-a-row',
    table({
      header: ['time_s', 'channel', 'value'],
      rows: rows.slice(0, 30).flatMap((cells) => SIX.map((name, i) => [cells[0], name, cells[i + 1]])),
    }),
    'Long form: one value a row.',
    { code: 'NOT_A_RECORDING' },
  );
  return cases;
}
