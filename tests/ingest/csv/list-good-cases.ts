import { gzipSync } from 'node:zlib';
import {
  type Case,
  caseList,
  DEG,
  type Expected,
  G,
  expectSensor,
  pad,
  seconds,
  sixAxes,
  table,
  PLAIN,
  TOLERANCE,
} from './case-tools.ts';
import { makeSignal } from './make-signal.ts';

const ACC_G = { per_si: 1 / G, decimals: 5 };
const GYR_DPS = { per_si: 1 / DEG, decimals: 3 };

function expected(what: string, recordings: Expected['recordings'], more: Partial<Expected> = {}): Expected {
  return { what, recordings, tolerance: TOLERANCE, faults: [], rejected_lines: [], layout: {}, ...more };
}

const clock = (total: number, digits = 3) => {
  const whole = Math.floor(total + 1e-9);
  const part = Math.round((total - whole) * 10 ** digits);
  return `${pad(Math.floor(whole / 3600) % 24)}:${pad(Math.floor(whole / 60) % 60)}:${pad(whole % 60)}${digits ? `.${pad(part, digits)}` : ''}`;
};

/** Odd but readable files, all of our own invention. */
export function goodCases(): Case[] {
  const { cases, put: add } = caseList();
  let seed = 100;
  const signal = (rate = 200, rest?: number, moving?: number) => makeSignal(seed++, rate, rest, moving);

  // Text
  let s = signal();
  const plain = table({ header: PLAIN, rows: sixAxes(s, seconds(s)) });
  add(
    'plain',
    plain,
    expected('Names and units as our own files have them.', [expectSensor(s)], {
      layout: { text: { delimiter: ',', decimal_mark: '.' } },
    }),
  );
  add(
    'gzip-without-its-name',
    gzipSync(plain, { level: 9 }),
    expected('A gzip file that is called .csv.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'utf8-byte-order-mark',
    `\ufeff${table({ header: PLAIN, rows: sixAxes(s, seconds(s)), newline: '\r\n' })}`,
    expected('UTF-8 with a byte-order mark and Windows line ends.', [expectSensor(s)]),
  );
  s = signal();
  const german = [
    'Zeit [s]',
    'Beschleunigung X [g]',
    'Beschleunigung Y [g]',
    'Beschleunigung Z [g]',
    'Drehrate X [°/s]',
    'Drehrate Y [°/s]',
    'Drehrate Z [°/s]',
  ];
  const germanRows = sixAxes(s, seconds(s), ACC_G, GYR_DPS);
  add(
    'utf16-with-mark',
    Buffer.from(`\ufeff${table({ header: german, rows: germanRows, delimiter: '\t' })}`, 'utf16le'),
    expected('UTF-16 (little end first) with tabs.', [expectSensor(s)], {
      layout: { text: { encoding: 'utf-16le', delimiter: '\t' } },
    }),
  );
  add(
    'utf16-big-end-no-mark',
    Buffer.from(table({ header: german, rows: germanRows }), 'utf16le').swap16(),
    expected('UTF-16 (big end first) without a mark.', [expectSensor(s)], {
      layout: { text: { encoding: 'utf-16be' } },
    }),
  );
  s = signal();
  add(
    'latin1-degree-sign',
    Buffer.from(
      table({ header: german, rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS), delimiter: ';', decimal: ',' }),
      'latin1',
    ),
    expected('Latin-1 with a degree sign, semicolons and decimal commas.', [expectSensor(s)], {
      layout: { text: { encoding: 'windows-1252', delimiter: ';', decimal_mark: ',' } },
    }),
  );
  s = signal();
  add(
    'semicolon-decimal-comma',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)), delimiter: ';', decimal: ',' }),
    expected('Semicolons and decimal commas.', [expectSensor(s)], { layout: { text: { decimal_mark: ',' } } }),
  );
  s = signal();
  add(
    'tab-decimal-comma',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)), delimiter: '\t', decimal: ',' }),
    expected('Tabs and decimal commas.', [expectSensor(s)]),
  );
  s = signal();
  const wide = sixAxes(s, seconds(s)).map((cells) => cells.map((cell) => cell.padStart(11)));
  add(
    'fixed-width-blanks',
    table({ header: PLAIN.map((name) => name.padStart(11)), rows: wide, delimiter: ' ' }),
    expected('Columns set with blanks to a fixed width.', [expectSensor(s)], { layout: { text: { delimiter: ' ' } } }),
  );
  s = signal();
  add(
    'bars-between-columns',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)), delimiter: '|' }),
    expected('Bars between the columns.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'old-mac-line-ends',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)), newline: '\r' }),
    expected('Carriage returns alone as line ends.', [expectSensor(s)]),
  );
  s = signal();
  const mixed = table({ header: PLAIN, rows: sixAxes(s, seconds(s)) }).split('\n');
  add(
    'mixed-line-ends',
    mixed.map((line, i) => (i < mixed.length - 1 ? line + (i % 3 ? '\r\n' : '\n') : line)).join(''),
    expected('Two kinds of line end in one file.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'quoted-cells',
    table({
      header: PLAIN.map((name) => `"${name}"`),
      rows: sixAxes(s, seconds(s)).map((cells) => cells.map((cell) => `"${cell}"`)),
    }),
    expected('Every cell in quotes.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'trailing-delimiter',
    table({ header: [...PLAIN, ''], rows: sixAxes(s, seconds(s)).map((cells) => [...cells, '']) }),
    expected('A delimiter at the end of every line.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'scientific-notation',
    table({
      header: PLAIN,
      rows: s.time_s.map((t, i) => [t, ...s.acc[i], ...s.gyr[i]].map((value) => value.toExponential(6))),
    }),
    expected('All numbers in scientific notation.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'no-final-line-end',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)), final_newline: false }),
    expected('A whole last row without a line end.', [expectSensor(s)]),
  );

  // Headers
  s = signal();
  add(
    'preamble-with-metadata',
    table({
      preamble: [
        'Trackside logger;v2',
        'Sampling rate: 200 Hz',
        'Start time: 2026-05-04T09:30:00.250Z',
        'Placement: left shoe',
        '',
      ],
      header: ['sample', 'ax [g]', 'ay [g]', 'az [g]', 'gx [deg/s]', 'gy [deg/s]', 'gz [deg/s]'],
      rows: sixAxes(s, (row) => String(row), ACC_G, GYR_DPS),
    }),
    expected(
      'Rate, start and side stand above the table; rows carry a number only.',
      [expectSensor(s, { side: 'left', start_utc: '2026-05-04T09:30:00.250Z' })],
      { layout: { time: { kind: 'rows', rate_hz: 200 } } },
    ),
  );
  s = signal();
  add(
    'long-preamble',
    table({
      preamble: Array.from({ length: 120 }, (_, i) => `# note ${i}: nothing to see, 1, 2, 3`),
      header: PLAIN,
      rows: sixAxes(s, seconds(s)),
    }),
    expected('120 lines of notes above the header.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'commented-header',
    table({
      preamble: ['# made by a logger of our own'],
      header: [`# ${PLAIN[0]}`, ...PLAIN.slice(1)],
      rows: sixAxes(s, seconds(s)),
    }),
    expected('The header is a comment.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'units-row',
    table({
      header: ['Time', 'Acc X', 'Acc Y', 'Acc Z', 'Gyr X', 'Gyr Y', 'Gyr Z'],
      units: ['ms', 'g', 'g', 'g', 'deg/s', 'deg/s', 'deg/s'],
      rows: sixAxes(s, (row) => (row * 5).toFixed(1), ACC_G, GYR_DPS),
    }),
    expected('Units in a row of their own.', [expectSensor(s)], {
      layout: { text: { units_row: true }, time: { seconds_per_unit: 0.001 } },
    }),
  );
  s = signal();
  add(
    'two-line-header',
    table({
      preamble: ['time,Accelerometer (m/s^2),,,Gyroscope (rad/s),,'],
      header: ['s', 'x', 'y', 'z', 'x', 'y', 'z'],
      rows: sixAxes(s, seconds(s)),
    }),
    expected('A line of groups above a line of axes.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'no-header',
    table({ rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS) }),
    expected('No names: acceleration is what has 1 g at rest.', [expectSensor(s)], {
      layout: { text: { header_row: false } },
    }),
  );
  s = signal();
  add(
    'no-header-gyroscope-first',
    table({
      rows: s.time_s.map((t, i) => [
        t.toFixed(4),
        ...s.gyr[i].map((v) => (v / DEG).toFixed(3)),
        ...s.acc[i].map((v) => v.toFixed(4)),
      ]),
    }),
    expected('No names, and the gyroscope comes first.', [expectSensor(s)]),
  );
  s = signal();
  const french = [
    'Temps (s)',
    'Accélération X (m/s²)',
    'Accélération Y (m/s²)',
    'Accélération Z (m/s²)',
    'Vitesse angulaire X (rad/s)',
    'Vitesse angulaire Y (rad/s)',
    'Vitesse angulaire Z (rad/s)',
  ];
  add(
    'french-names',
    table({ header: french, rows: sixAxes(s, seconds(s)), delimiter: ';', decimal: ',' }),
    expected('French names.', [expectSensor(s)]),
  );
  s = signal();
  const spanish = [
    'Tiempo (ms)',
    'Aceleración X (g)',
    'Aceleración Y (g)',
    'Aceleración Z (g)',
    'Velocidad angular X (grados/s)',
    'Velocidad angular Y (grados/s)',
    'Velocidad angular Z (grados/s)',
  ];
  add(
    'spanish-names',
    table({ header: spanish, rows: sixAxes(s, (row) => (row * 5).toFixed(2), ACC_G, GYR_DPS) }),
    expected('Spanish names.', [expectSensor(s)]),
  );
  s = signal();
  const japanese = [
    '時間(s)',
    'X軸加速度(m/s²)',
    'Y軸加速度(m/s²)',
    'Z軸加速度(m/s²)',
    'X軸角速度(deg/s)',
    'Y軸角速度(deg/s)',
    'Z軸角速度(deg/s)',
  ];
  add(
    'japanese-names',
    table({ header: japanese, rows: sixAxes(s, seconds(s), undefined, GYR_DPS) }),
    expected('Japanese names.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'unit-tells-the-quantity',
    table({
      header: ['t [s]', 'X [m/s^2]', 'Y [m/s^2]', 'Z [m/s^2]', 'X [°/s]', 'Y [°/s]', 'Z [°/s]'],
      rows: sixAxes(s, seconds(s), undefined, GYR_DPS),
    }),
    expected('Only units tell acceleration from angular rate.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'axes-in-another-order',
    table({
      header: ['time_s', 'acc_z_g', 'acc_x_g', 'acc_y_g', 'gyr_y_dps', 'gyr_z_dps', 'gyr_x_dps'],
      rows: s.time_s.map((t, i) => [
        t.toFixed(4),
        ...[2, 0, 1].map((a) => (s.acc[i][a] / G).toFixed(5)),
        ...[1, 2, 0].map((a) => (s.gyr[i][a] / DEG).toFixed(3)),
      ]),
    }),
    expected('Axes in another order than x, y, z.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'axis-with-a-minus',
    table({
      header: ['time_s', 'acc_-x_mps2', 'acc_y_mps2', 'acc_z_mps2', 'gyr_-x_radps', 'gyr_y_radps', 'gyr_z_radps'],
      rows: s.time_s.map((t, i) => [
        t.toFixed(4),
        (-s.acc[i][0]).toFixed(4),
        s.acc[i][1].toFixed(4),
        s.acc[i][2].toFixed(4),
        (-s.gyr[i][0]).toFixed(5),
        s.gyr[i][1].toFixed(5),
        s.gyr[i][2].toFixed(5),
      ]),
    }),
    expected('The x axis is written the wrong way round, and says so.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'many-unrelated-columns',
    table({
      header: [
        'seq',
        'time_s',
        'temp_c',
        'acc_x_mps2',
        'acc_y_mps2',
        'acc_z_mps2',
        'mag_x_ut',
        'mag_y_ut',
        'mag_z_ut',
        'gyr_x_radps',
        'gyr_y_radps',
        'gyr_z_radps',
        'qw',
        'qx',
        'qy',
        'qz',
        'battery_v',
      ],
      rows: sixAxes(s, seconds(s)).map((c, i) => [
        String(i + 40),
        c[0],
        '31.5',
        ...c.slice(1, 4),
        '21.1',
        '-4.0',
        '40.2',
        ...c.slice(4),
        '1',
        '0',
        '0',
        '0',
        '3.9',
      ]),
    }),
    expected('Magnetometer, orientation, temperature and battery between the columns.', [expectSensor(s)], {
      layout: { counter: 0 },
    }),
  );
  s = signal();
  add(
    'accelerometer-only',
    table({ header: ['t_s', 'ax_g', 'ay_g', 'az_g'], rows: sixAxes(s, seconds(s), ACC_G, null) }),
    expected('No gyroscope.', [expectSensor(s, { gyr: false })]),
  );
  s = signal();
  add(
    'raw-beside-gravity-free',
    table({
      header: [
        'time_s',
        'linear acceleration x (m/s^2)',
        'linear acceleration y (m/s^2)',
        'linear acceleration z (m/s^2)',
        'acceleration x (m/s^2)',
        'acceleration y (m/s^2)',
        'acceleration z (m/s^2)',
      ],
      rows: sixAxes(s, seconds(s), undefined, null).map((c) => [c[0], '0.01', '0.02', '0.01', ...c.slice(1)]),
    }),
    expected('Acceleration without gravity stands beside the one to use.', [expectSensor(s, { gyr: false })]),
  );

  // Units
  s = signal();
  add(
    'no-units-g',
    table({ header: ['time', 'ax', 'ay', 'az', 'gx', 'gy', 'gz'], rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS) }),
    expected('No units: 1 at rest is g, hundreds are deg/s.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'no-units-si',
    table({ header: ['time', 'ax', 'ay', 'az', 'wx', 'wy', 'wz'], rows: sixAxes(s, seconds(s)) }),
    expected('No units: 9.8 at rest is m/s2, and too much motion for deg/s.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'milli-units',
    table({
      header: ['time_ms', 'acc_x_mg', 'acc_y_mg', 'acc_z_mg', 'gyr_x_mdps', 'gyr_y_mdps', 'gyr_z_mdps'],
      rows: sixAxes(
        s,
        (row) => String(row * 5),
        { per_si: 1000 / G, decimals: 1 },
        { per_si: 1000 / DEG, decimals: 0 },
      ),
    }),
    expected('mg, mdeg/s and ms.', [expectSensor(s)]),
  );
  s = signal();
  const counts = { per_si: 2048 / G, decimals: 0 };
  const coarse = { time_s: 1e-4, acc_mps2: 0.003, gyr_radps: 0.0006 };
  add(
    'counts-with-scale-in-preamble',
    table({
      preamble: ['acc scale 2048 LSB/g', 'gyro scale 16.4 LSB/dps'],
      header: ['time_s', 'ax', 'ay', 'az', 'gx', 'gy', 'gz'],
      rows: sixAxes(s, seconds(s), counts, { per_si: 16.4 / DEG, decimals: 0 }),
    }),
    expected('Raw counts with their scale above the table.', [expectSensor(s)], { tolerance: coarse }),
  );
  s = signal();
  add(
    'counts-with-range-and-bits',
    table({
      preamble: ['Accelerometer range: 16 g', 'Gyroscope range: 2000 dps', 'Resolution: 16 bit'],
      header: ['time_s', 'acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'],
      rows: sixAxes(s, seconds(s), counts, { per_si: 32768 / 2000 / DEG, decimals: 0 }),
    }),
    expected('Raw counts with range and bits above the table.', [expectSensor(s)], { tolerance: coarse }),
  );
  s = signal();
  add(
    'counts-by-layout',
    table({
      header: ['time_s', 'ax', 'ay', 'az', 'gx', 'gy', 'gz'],
      rows: sixAxes(s, seconds(s), counts, { per_si: 16.4 / DEG, decimals: 0 }),
    }),
    expected('Raw counts whose scale the user gives.', [expectSensor(s)], { tolerance: coarse }),
    { layout: { acc_counts_per_g: 2048, gyr_counts_per_dps: 16.4 } },
  );
  s = signal();
  add(
    'counts-accelerometer-by-rest',
    table({
      header: ['time_s', 'ax', 'ay', 'az'],
      rows: sixAxes(s, seconds(s), { per_si: 4096 / G, decimals: 0 }, null),
    }),
    expected('Whole numbers next to 4096 at rest: counts.', [expectSensor(s, { gyr: false })], { tolerance: coarse }),
  );

  // Time
  s = signal();
  add(
    'microseconds-without-a-unit',
    table({ header: ['timestamp', ...PLAIN.slice(1)], rows: sixAxes(s, (row) => String(81_000_000 + row * 5000)) }),
    expected('Stamps in us: no other unit gives a rate a logger has.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'nanoseconds-of-unix-time',
    table({
      header: ['time_ns', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => `${1_777_777_777n * 1_000_000_000n + BigInt(row) * 5_000_000n}`),
    }),
    expected('Nanoseconds since 1970.', [expectSensor(s, { start_utc: '2026-05-03T03:09:37Z' })]),
  );
  s = signal();
  add(
    'unix-milliseconds',
    table({
      header: ['Unix time (ms)', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => String(1_777_777_777_500 + row * 5)),
    }),
    expected('Milliseconds since 1970.', [expectSensor(s, { start_utc: '2026-05-03T03:09:37.500Z' })]),
  );
  s = signal();
  const iso = (row: number) => new Date(Date.UTC(2026, 4, 4, 9, 59, 59, 700) + row * 5).toISOString();
  add(
    'iso-8601',
    table({ header: ['time', ...PLAIN.slice(1)], rows: sixAxes(s, iso) }),
    expected('ISO 8601 over the turn of an hour.', [expectSensor(s, { start_utc: '2026-05-04T09:59:59.700Z' })], {
      layout: { time: { kind: 'iso' } },
    }),
  );
  s = signal();
  add(
    'iso-with-zone',
    table({ header: ['time', ...PLAIN.slice(1)], rows: sixAxes(s, (row) => iso(row).replace('Z', '+02:00')) }),
    expected('ISO 8601 with a zone.', [expectSensor(s, { start_utc: '2026-05-04T07:59:59.700Z' })]),
  );
  s = signal();
  add(
    'date-and-clock-columns',
    table({
      header: ['Date', 'Time', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => clock(86_399.5 + row / 200)).map((c, row) => [
        86_399.5 + row / 200 < 86_400 ? '04.05.2026' : '05.05.2026',
        ...c,
      ]),
    }),
    expected(
      'Date and clock in two columns, over midnight.',
      [expectSensor(s, { start_utc: '2026-05-04T23:59:59.500Z' })],
      { layout: { time: { kind: 'date_and_clock', date_order: 'dmy' } } },
    ),
  );
  s = signal();
  add(
    'clock-over-midnight',
    table({ header: ['Time', ...PLAIN.slice(1)], rows: sixAxes(s, (row) => clock(86_399.5 + row / 200)) }),
    expected('Clock times that run over midnight.', [expectSensor(s)], { layout: { time: { kind: 'clock' } } }),
  );
  s = signal();
  add(
    'day-and-month-unclear',
    table({
      header: ['Date/Time', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => `04/05/2026 ${clock(36_000 + row / 200)}`),
    }),
    expected('Day and month may be either: intervals are sure, the date is left out.', [expectSensor(s)], {
      layout: { time: { date_order: null } },
    }),
  );
  s = signal();
  add(
    'ticks-with-a-rate',
    table({
      preamble: ['Tick frequency: 32768 Hz'],
      header: ['ticks', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => String(Math.round((row * 32768) / 200))),
    }),
    expected('Ticks of a 32768 Hz clock.', [expectSensor(s)], { layout: { time: { seconds_per_unit: 1 / 32768 } } }),
  );
  s = signal();
  add(
    'no-time-rate-given',
    table({ header: PLAIN.slice(1), rows: sixAxes(s, () => '').map((cells) => cells.slice(1)) }),
    expected('No time at all; the rate is given.', [expectSensor(s)]),
    { rate_hz: 200 },
  );
  s = signal();
  add(
    'full-32-bit-clock',
    table({
      header: ['time_us', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => String((4_294_767_296 + row * 5000) % 4_294_967_296)),
    }),
    expected('A 32 bit clock of microseconds that is full and starts anew.', [expectSensor(s)]),
  );
  s = signal(300);
  add(
    'stamps-rounded-to-ms',
    table({
      header: ['time_ms', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => String(Math.round((row * 1000) / 300))),
    }),
    expected('300 Hz with stamps rounded to 1 ms: an even clock agrees with every stamp.', [expectSensor(s)], {
      tolerance: { ...TOLERANCE, time_s: 5e-4 },
    }),
  );
  s = signal(400, 200, 80);
  add(
    'packets-share-a-stamp',
    table({
      header: ['time_ms', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => String(Math.floor(row / 8) * 20 + [0, 3, -2, 1, 4, -1][Math.floor(row / 8) % 6])),
    }),
    expected('Packets of 8 samples share a stamp that comes a little early or late.', [expectSensor(s)], {
      tolerance: { ...TOLERANCE, time_s: 4e-3 },
    }),
  );
  s = signal();
  add(
    'day-serial',
    table({
      header: ['time', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => (46_146.4 + row / 200 / 86_400).toFixed(10)),
    }),
    expected('Days of a spreadsheet.', [expectSensor(s, { start_utc: '2026-05-04T09:36:00Z' })], {
      tolerance: { ...TOLERANCE, time_s: 3e-4 },
    }),
  );

  // Several sensors
  let l = signal();
  let r = signal();
  add(
    'side-column',
    table({
      header: ['side', ...PLAIN],
      rows: sixAxes(l, seconds(l)).flatMap((c, i) => [
        ['left', ...c],
        ['right', ...sixAxes(r, seconds(r))[i]],
      ]),
    }),
    expected('Both feet in turn, told apart by a column.', [
      expectSensor(l, { side: 'left' }),
      expectSensor(r, { side: 'right' }),
    ]),
  );
  l = signal();
  r = signal();
  const rightRows = sixAxes(r, seconds(r), ACC_G, GYR_DPS);
  add(
    'left-and-right-prefixes',
    table({
      header: [
        'time_s',
        ...['left', 'right'].flatMap((side) =>
          ['acc_x_g', 'acc_y_g', 'acc_z_g', 'gyr_x_dps', 'gyr_y_dps', 'gyr_z_dps'].map((name) => `${side}_${name}`),
        ),
      ],
      rows: sixAxes(l, seconds(l), ACC_G, GYR_DPS).map((c, i) => [...c, ...rightRows[i].slice(1)]),
    }),
    expected('Both feet side by side, told apart by prefixes.', [
      expectSensor(l, { side: 'left' }),
      expectSensor(r, { side: 'right' }),
    ]),
  );
  s = signal();
  add(
    'side-in-the-file-name',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)) }),
    expected('The file name tells the side.', [expectSensor(s, { side: 'right' })]),
    undefined,
    'Fuss_rechts_03.csv',
  );

  s = signal();
  add(
    'quoted-decimal-commas',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)).map((c) => c.map((v) => `"${v.replace('.', ',')}"`)) }),
    expected('Commas between the columns and in the numbers, held together by quotes.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'axes-by-direction',
    table({
      header: [
        'time_s',
        'acc_ap_g',
        'acc_ml_g',
        'acc_vert_g',
        'roll rate (deg/s)',
        'pitch rate (deg/s)',
        'yaw rate (deg/s)',
      ],
      rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS),
    }),
    expected('Axes named by direction and by turn.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'names-that-say-nothing',
    table({ header: ['ch1', 'ch2', 'ch3', 'ch4', 'ch5', 'ch6', 'ch7'], rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS) }),
    expected('Names that say nothing: the data tells.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'axes-without-groups',
    table({ header: ['t', 'x', 'y', 'z', 'x', 'y', 'z'], rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS) }),
    expected('Twice x, y, z and no more: the data tells.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'index-column-and-unix-seconds',
    table({
      header: ['', 'unixTime', 'AccX', 'AccY', 'AccZ', 'GyroX', 'GyroY', 'GyroZ'],
      rows: sixAxes(s, (row) => (1_777_777_777 + row / 200).toFixed(6), ACC_G, GYR_DPS).map((c, i) => [
        String(i),
        ...c,
      ]),
    }),
    expected('A nameless index, seconds since 1970 with microseconds.', [
      expectSensor(s, { start_utc: '2026-05-03T03:09:37Z' }),
    ]),
  );
  s = signal();
  add(
    'time-before-a-trigger',
    table({ header: PLAIN, rows: sixAxes(s, (row) => (row / 200 - 0.35).toFixed(4)) }),
    expected('Time that starts below zero.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'letters-and-foot',
    table({
      header: [
        'time_s',
        'RFoot_AccX_g',
        'RFoot_AccY_g',
        'RFoot_AccZ_g',
        'RFoot_GyrX_dps',
        'RFoot_GyrY_dps',
        'RFoot_GyrZ_dps',
      ],
      rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS),
    }),
    expected('Side and foot in one word before the quantity.', [expectSensor(s, { side: 'right' })]),
  );
  s = signal();
  add(
    'separator-line',
    `sep=;\n${table({ header: german, rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS), delimiter: ';', decimal: ',' })}`,
    expected('A first line that tells a spreadsheet the separator.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'russian-names',
    table({
      header: [
        'Время, мс',
        'Ускорение X, м/с²',
        'Ускорение Y, м/с²',
        'Ускорение Z, м/с²',
        'Угловая скорость X, град/с',
        'Угловая скорость Y, град/с',
        'Угловая скорость Z, град/с',
      ],
      rows: sixAxes(s, (row) => (row * 5).toFixed(1), undefined, GYR_DPS),
      delimiter: ';',
    }),
    expected('Russian names.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'polish-names',
    table({
      header: [
        'Czas [s]',
        'Przyspieszenie X [g]',
        'Przyspieszenie Y [g]',
        'Przyspieszenie Z [g]',
        'Prędkość kątowa X [°/s]',
        'Prędkość kątowa Y [°/s]',
        'Prędkość kątowa Z [°/s]',
      ],
      rows: sixAxes(s, seconds(s), ACC_G, GYR_DPS),
      delimiter: ';',
      decimal: ',',
    }),
    expected('Polish names.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'units-row-in-brackets',
    table({
      header: [
        'Timestamp',
        'Accelerometer.X',
        'Accelerometer.Y',
        'Accelerometer.Z',
        'Gyroscope.X',
        'Gyroscope.Y',
        'Gyroscope.Z',
      ],
      units: ['[us]', '[m/s^2]', '[m/s^2]', '[m/s^2]', '[rad/s]', '[rad/s]', '[rad/s]'],
      rows: sixAxes(s, (row) => String(5000 * row + 77)),
    }),
    expected('Units in a row of their own, in brackets.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'clock-with-colon-milliseconds',
    table({
      header: ['Uhrzeit', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => clock(36_061 + row / 200).replace('.', ':')),
    }),
    expected('Clock times with a colon before the milliseconds.', [expectSensor(s)]),
  );
  s = signal();
  add(
    'clock-of-twelve-hours',
    table({
      header: ['Time', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => `${clock(3600 * 11 + row / 200).replace(/^11/, '11')} PM`),
    }),
    expected('Clock times with PM.', [expectSensor(s)]),
  );

  s = signal();
  add(
    'last-column-empty',
    table({ header: [...PLAIN, 'remark'], rows: sixAxes(s, seconds(s)).map((c) => [...c, '']) }),
    expected('A named last column that is empty in every row.', [expectSensor(s)], { layout: { column_count: 8 } }),
  );
  s = signal();
  add(
    'short-settings-table-above',
    table({
      preamble: ['calibration', '1.0,0.01,0.02', '0.0,1.0,0.01', '0.01,0.0,1.0', 'offset', '0.1,0.2,0.3', ''],
      header: PLAIN,
      rows: sixAxes(s, seconds(s)),
    }),
    expected('A small table of numbers above the real one.', [expectSensor(s)]),
  );

  // Damage
  s = signal();
  const half = table({ header: PLAIN, rows: sixAxes(s, seconds(s)) });
  add(
    'last-number-cut',
    half.slice(0, -4),
    expected(
      'The last row has all its cells, but its last number breaks off.',
      [expectSensor(s, { kept: s.time_s.map((_, row) => row).slice(0, -1) })],
      { faults: ['ROWS_SET_ASIDE'], rejected_lines: [161] },
    ),
  );
  s = signal();
  const all = s.time_s.map((_, row) => row);
  const cut = table({ header: PLAIN, rows: sixAxes(s, seconds(s)) });
  add(
    'row-cut-in-the-middle',
    cut.slice(0, -35),
    expected('The last row breaks off.', [expectSensor(s, { kept: all.slice(0, -1) })], {
      faults: ['ROWS_SET_ASIDE'],
      rejected_lines: [161],
    }),
  );
  s = signal();
  const torn = table({ header: PLAIN, rows: sixAxes(s, seconds(s)) });
  add(
    'compressed-file-cut',
    gzipSync(torn, { level: 1 }).subarray(0, -9),
    expected('A gzip file without its end.', [expectSensor(s)], { faults: ['FILE_CUT_SHORT'] }),
  );
  s = signal();
  const bad = sixAxes(s, seconds(s));
  bad[30][2] = 'err';
  bad[70] = bad[70].slice(0, 4);
  bad[120][5] = '12.3.4';
  const keptRows = all.filter((row) => ![30, 70, 120].includes(row));
  const gapAt = (row: number) => ({ start_s: (row - 1) / 200, end_s: (row + 1) / 200, lost_samples: 1 });
  add(
    'three-bad-rows',
    table({ header: PLAIN, rows: bad }),
    expected(
      'Three rows that cannot be read are set aside, and leave gaps.',
      [expectSensor(s, { kept: keptRows, gaps: [30, 70, 120].map(gapAt) })],
      { faults: ['ROWS_SET_ASIDE', 'SAMPLES_LOST'], rejected_lines: [32, 72, 122] },
    ),
  );
  add(
    'missing-value-named-in-layout',
    table({ header: PLAIN, rows: bad.map((c, i) => (i === 70 || i === 120 ? sixAxes(s, seconds(s))[i] : c)) }),
    expected('A word that the layout calls missing.', [expectSensor(s, { missing: [{ row: 30, axis: 1 }] })]),
    { layout: { text: { missing_values: ['err'] } } },
  );
  s = signal();
  const quote = sixAxes(s, seconds(s));
  quote[60][3] = `"${quote[60][3]}`;
  add(
    'unclosed-quote',
    table({ header: PLAIN, rows: quote }),
    expected(
      'An unclosed quote spoils its own row alone.',
      [expectSensor(s, { kept: all.filter((row) => row !== 60), gaps: [gapAt(60)] })],
      { faults: ['ROWS_SET_ASIDE', 'SAMPLES_LOST'], rejected_lines: [62] },
    ),
  );
  s = signal();
  const gappy = all.filter((row) => row < 40 || row >= 64);
  add(
    'gap-in-time',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)).filter((_, row) => gappy.includes(row)) }),
    expected(
      '24 samples lost.',
      [expectSensor(s, { kept: gappy, gaps: [{ start_s: 39 / 200, end_s: 64 / 200, lost_samples: 24 }] })],
      { faults: ['SAMPLES_LOST'] },
    ),
  );
  s = signal();
  add(
    'counter-shows-loss',
    table({
      header: ['counter', ...PLAIN.slice(1)],
      rows: sixAxes(s, (row) => String((row + 65_500) % 65_536)).filter((_, row) => gappy.includes(row)),
    }),
    expected(
      'No time: a 16 bit counter over its end, with the rate, shows 24 lost samples.',
      [expectSensor(s, { kept: gappy, gaps: [{ start_s: 39 / 200, end_s: 64 / 200, lost_samples: 24 }] })],
      { faults: ['SAMPLES_LOST'] },
    ),
    { rate_hz: 200 },
  );
  s = signal();
  const shuffled = [...all];
  [shuffled[80], shuffled[81], shuffled[82]] = [82, 80, 81];
  const rows = sixAxes(s, seconds(s));
  add(
    'late-rows',
    table({ header: PLAIN, rows: shuffled.map((row) => rows[row]) }),
    expected('Rows that came late are put in order.', [expectSensor(s)], { faults: ['ROWS_OUT_OF_ORDER'] }),
  );
  add(
    'repeated-rows',
    table({ header: PLAIN, rows: [...rows.slice(0, 50), ...rows.slice(45, 50), ...rows.slice(50)] }),
    expected('A packet that was written twice.', [expectSensor(s)], { faults: ['ROWS_OUT_OF_ORDER', 'ROWS_REPEATED'] }),
  );
  s = signal();
  const wild = sixAxes(s, seconds(s));
  wild[90][0] = '9999.4500';
  add(
    'one-wrong-stamp',
    table({ header: PLAIN, rows: wild }),
    expected(
      'One stamp far off is set aside and spoils no other.',
      [expectSensor(s, { kept: all.filter((row) => row !== 90), gaps: [gapAt(90)] })],
      { faults: ['ROWS_SET_ASIDE', 'SAMPLES_LOST'], rejected_lines: [92] },
    ),
  );
  s = signal(200, 700, 60);
  add(
    'clock-starts-again',
    table({
      header: ['time_s', 'ax_g', 'ay_g', 'az_g'],
      rows: sixAxes(
        s,
        (row) => (row < 600 ? 4 + row / 200 : (row - 600) / 200).toFixed(3),
        { per_si: 1 / G, decimals: 4 },
        null,
      ),
    }),
    expected(
      'The sensor starts its clock again: how long it was away is not known.',
      [expectSensor(s, { gyr: false, gaps: [{ start_s: 599 / 200, end_s: 3, lost_samples: null }] })],
      { faults: ['CLOCK_RESTARTED', 'SAMPLES_LOST'] },
    ),
  );
  s = signal(25, 80, 40);
  add(
    'low-rate',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)) }),
    expected('25 Hz is read and marked.', [expectSensor(s)], { faults: ['RATE_LOW'] }),
  );
  return cases;
}
