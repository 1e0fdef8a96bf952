import { type Case, caseList, DEG, G, type Refused, seconds, sixAxes, table, PLAIN } from './case-tools.ts';
import { makeSignal } from './make-signal.ts';

const ACC_G = { per_si: 1 / G, decimals: 5 };

/** Files that must be refused: some are no recording, others can be read in more than one way. */
export function refusedCases(): Case[] {
  const { cases, refuse: add } = caseList();
  let seed = 900;
  const ask = (about: string, fewest_choices = 0): Refused['refused'] => ({
    code: 'LAYOUT_AMBIGUOUS',
    about,
    fewest_choices,
  });
  const signal = (rate = 200, rest?: number, moving?: number) => makeSignal(seed++, rate, rest, moving);

  // Ambiguous: each can be read in more than one way
  let s = signal();
  const whole = {
    header: ['time', 'ax', 'ay', 'az'],
    rows: sixAxes(s, seconds(s), { per_si: 1012 / G, decimals: 0 }, null),
  };
  add(
    'ambiguous-mg-or-counts',
    table(whole),
    'Whole numbers of 1012 at rest: mg, or 1024 counts a g.',
    ask('acceleration unit', 2),
  );
  s = signal();
  add(
    'ambiguous-counts-of-gyroscope',
    table({
      header: ['time_s', 'ax', 'ay', 'az', 'gx', 'gy', 'gz'],
      rows: sixAxes(s, seconds(s), { per_si: 2048 / G, decimals: 0 }, { per_si: 16.4 / DEG, decimals: 0 }),
    }),
    'Counts of a gyroscope without a scale.',
    ask('gyroscope unit', 2),
  );
  s = signal(200, 160, 0);
  add(
    'ambiguous-gyroscope-at-rest',
    table({ header: ['time_s', 'ax', 'ay', 'az', 'gx', 'gy', 'gz'], rows: sixAxes(s, seconds(s)) }),
    'Nothing moves: deg/s and rad/s look alike.',
    ask('gyroscope unit', 2),
  );
  s = signal(1000);
  add(
    'ambiguous-time-of-step-one',
    table({ header: ['time', ...PLAIN.slice(1)], rows: sixAxes(s, (row) => String(row)) }),
    'A time that grows by 1: milliseconds, or the number of the row.',
    ask('time unit', 2),
  );
  s = signal();
  add(
    'ambiguous-ticks',
    table({ header: ['ticks', ...PLAIN.slice(1)], rows: sixAxes(s, (row) => String(row * 164)) }),
    'Ticks of an unknown clock.',
    ask('time unit', 1),
  );
  s = signal();
  add(
    'ambiguous-comma-for-both',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)), decimal: ',' }),
    'The comma parts columns and decimals.',
    ask('decimal mark'),
  );
  s = signal();
  add(
    'ambiguous-two-accelerometers',
    table({
      header: ['time_s', 'low_acc_x_g', 'low_acc_y_g', 'low_acc_z_g', 'high_acc_x_g', 'high_acc_y_g', 'high_acc_z_g'],
      rows: sixAxes(s, seconds(s), ACC_G, null).map((c) => [...c, ...c.slice(1)]),
    }),
    'A low and a high range accelerometer.',
    ask('sensor', 2),
  );
  s = signal();
  add(
    'ambiguous-sensors-without-a-side',
    table({
      header: ['device', ...PLAIN],
      rows: sixAxes(s, seconds(s)).flatMap((c) => [
        ['A17', ...c],
        ['B02', ...c],
      ]),
    }),
    'Two sensors whose names tell no side.',
    ask('side'),
  );
  s = signal();
  add(
    'ambiguous-unit-against-data',
    table({ header: ['time_s', 'acc_x_g', 'acc_y_g', 'acc_z_g'], rows: sixAxes(s, seconds(s), undefined, null) }),
    'Written as g, yet 9.8 at rest.',
    ask('acceleration unit', 2),
  );
  s = signal();
  add(
    'ambiguous-time-unit-against-step',
    table({ header: ['time_ms', ...PLAIN.slice(1)], rows: sixAxes(s, seconds(s)) }),
    'Written as ms, yet its step is that of seconds.',
    ask('time unit', 2),
  );
  s = signal();
  add(
    'ambiguous-no-names-no-gravity',
    table({ rows: sixAxes(s, seconds(s), { per_si: 0.37, decimals: 5 }) }),
    'No names, and no three columns of 1 g.',
    ask('columns'),
  );
  s = signal(200, 0, 120);
  add(
    'ambiguous-counts-without-rest',
    table({
      header: ['time_s', 'ax', 'ay', 'az'],
      rows: sixAxes(s, seconds(s), { per_si: 2048 / G, decimals: 0 }, null),
    }),
    'Counts of an accelerometer that never rests.',
    ask('acceleration unit', 2),
  );
  s = signal();
  add(
    'ambiguous-mixed-units',
    table({ header: ['time_s', 'acc_x_g', 'acc_y_g', 'acc_z_mps2'], rows: sixAxes(s, seconds(s), ACC_G, null) }),
    'Axes of one sensor in different units.',
    ask('unit'),
  );

  s = signal();
  add(
    'ambiguous-a-clock-for-each-foot',
    table({
      header: [
        'left_time_s',
        ...PLAIN.slice(1).map((n) => `left_${n}`),
        'right_time_s',
        ...PLAIN.slice(1).map((n) => `right_${n}`),
      ],
      rows: sixAxes(s, seconds(s)).map((c, i) => [...c, (i / 200.02 + 0.4).toFixed(4), ...c.slice(1)]),
    }),
    'Two feet side by side, each on its own clock.',
    ask('time'),
  );
  s = signal();
  add(
    'ambiguous-shank-and-foot',
    table({
      header: [
        'time_s',
        ...['foot', 'shank'].flatMap((place) => ['x', 'y', 'z'].map((axis) => `${place}_acc_${axis}_g`)),
      ],
      rows: sixAxes(s, seconds(s), ACC_G, null).map((c) => [...c, ...c.slice(1)]),
    }),
    'Foot and shank of one side in one file.',
    ask('sensor', 2),
  );

  s = signal();
  add(
    'ambiguous-radians-too-many',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s), undefined, { per_si: 1 / DEG, decimals: 3 }) }),
    'Written as rad/s, yet hundreds of them.',
    ask('gyroscope unit', 1),
  );

  // No recording, or not enough of one
  s = signal();
  add(
    'quantity-column-without-time',
    table({
      header: ['sensor', 'x', 'y', 'z'],
      rows: sixAxes(s, seconds(s)).flatMap((c) => [
        ['ACC', ...c.slice(1, 4)],
        ['GYRO', ...c.slice(4)],
      ]),
    }),
    'A column says what each row holds, and nothing says when.',
    { code: 'ROWS_BY_QUANTITY' },
    { rate_hz: 200 },
  );
  add('empty', '', 'Nothing.', { code: 'FILE_EMPTY' });
  add('blank-lines-only', '\n\n  \n', 'Blank lines.', { code: 'FILE_EMPTY' });
  add(
    'picture',
    Buffer.concat([
      Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]),
      Buffer.from(Array.from({ length: 900 }, (_, i) => (i * 73) % 256)),
    ]),
    'A picture.',
    { code: 'FILE_NOT_TEXT' },
  );
  add('spreadsheet', Buffer.concat([Buffer.from('PK\u0003\u0004'), Buffer.alloc(600, 7)]), 'A zip file that is none.', {
    code: 'WORKBOOK_UNREADABLE',
  });
  add(
    'gzip-of-nonsense',
    Buffer.concat([Buffer.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0]), Buffer.alloc(200, 0xff)]),
    'A gzip head with nonsense behind it.',
    { code: 'GZIP_UNREADABLE' },
  );
  add('letter', 'Dear coach,\nthe files of last week are lost.\nSee you on Monday at 4, 5 or 6.\n', 'A letter.', {
    code: 'NOT_A_RECORDING',
  });
  add(
    'table-of-contacts',
    table({
      header: ['side', 'touchdown_s', 'toe_off_s', 'step_length_m', 'contact_time_ms'],
      rows: Array.from({ length: 40 }, (_, i) => [
        i % 2 ? 'left' : 'right',
        (i * 0.3).toFixed(3),
        (i * 0.3 + 0.15).toFixed(3),
        '1.6',
        '150',
      ]),
    }),
    'A table of results.',
    { code: 'COLUMN_MISSING' },
  );
  s = signal();
  add(
    'axis-missing',
    table({
      header: ['time_s', 'acc_x_g', 'acc_z_g', 'gyr_x_dps', 'gyr_y_dps', 'gyr_z_dps'],
      rows: sixAxes(s, seconds(s)).map((c) => [c[0], c[1], ...c.slice(3)]),
    }),
    'One axis of acceleration is missing.',
    { code: 'COLUMN_MISSING' },
  );
  s = signal();
  add(
    'gravity-taken-off',
    table({
      header: ['time_s', 'user_acceleration_x_g', 'user_acceleration_y_g', 'user_acceleration_z_g'],
      rows: sixAxes(
        { ...s, acc: s.acc.map((row) => row.map((v, axis) => v - s.acc[0][axis])) },
        seconds(s),
        ACC_G,
        null,
      ),
    }),
    'Only acceleration without gravity.',
    { code: 'ACCELERATION_WITHOUT_GRAVITY' },
  );
  s = signal();
  add(
    'no-time-no-rate',
    table({ header: PLAIN.slice(1), rows: sixAxes(s, () => '').map((c) => c.slice(1)) }),
    'Neither time nor rate.',
    { code: 'RATE_MISSING' },
  );
  s = signal();
  add(
    'a-tenth-of-the-rows-bad',
    table({
      header: PLAIN,
      rows: sixAxes(s, seconds(s)).map((c, i) => (i % 10 === 5 ? [...c.slice(0, 3), 'err', ...c.slice(4)] : c)),
    }),
    'One row in ten cannot be read.',
    { code: 'TOO_MANY_BAD_ROWS' },
  );
  s = signal();
  add('header-only', table({ header: PLAIN, rows: [] }), 'A header without rows.', { code: 'NOT_A_RECORDING' });
  s = signal();
  add(
    'layout-of-another-file',
    table({ header: PLAIN, rows: sixAxes(s, seconds(s)) }),
    'A layout that names a column the file lacks.',
    { code: 'LAYOUT_DOES_NOT_FIT' },
    { layout: { counter: 'packet_no' } },
  );
  return cases;
}
