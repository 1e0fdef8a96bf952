import {
  AXES,
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
import type { KnownRecording } from './make-signal.ts';

/** Half a second and more before the full minute, so that every clock passes one. */
const START_S = Date.UTC(2026, 10, 25, 14, 3, 59) / 1000;
const START = '2026-11-25T14:03:59.500Z';

interface Parts {
  y: number;
  mo: string;
  d: string;
  h: string;
  h12: string;
  mi: string;
  s: string;
  ms: string;
}

function partsOf(t: number): Parts {
  const at = new Date(Math.round(1000 * (START_S + 0.5 + t)));
  return {
    y: at.getUTCFullYear(),
    mo: pad(at.getUTCMonth() + 1),
    d: pad(at.getUTCDate()),
    h: pad(at.getUTCHours()),
    h12: String(at.getUTCHours() % 12),
    mi: pad(at.getUTCMinutes()),
    s: pad(at.getUTCSeconds()),
    ms: pad(at.getUTCMilliseconds(), 3),
  };
}

/** Stamps of laboratories and programs: what each writes, and the start it tells. */
const CLOCKS: [string, (p: Parts) => string, string | null][] = [
  ['17-digits', ({ y, mo, d, h, mi, s, ms }) => `${y}${mo}${d}${h}${mi}${s}${ms}`, START],
  ['14-digits-and-a-fraction', ({ y, mo, d, h, mi, s, ms }) => `${y}${mo}${d}${h}${mi}${s}.${ms}`, START],
  ['digits-with-underscores', ({ y, mo, d, h, mi, s, ms }) => `${y}${mo}${d}_${h}${mi}${s}_${ms}`, START],
  ['hours-to-seconds-in-one-number', ({ h, mi, s, ms }) => `${h}${mi}${s}.${ms}`, null],
  ['hours-to-milliseconds-in-one-number', ({ h, mi, s, ms }) => `${h}${mi}${s}${ms}`, null],
  ['day-of-the-year', ({ y, h, mi, s, ms }) => `${y}-329T${h}:${mi}:${s}.${ms}Z`, START],
  ['unix-date', ({ y, d, h, mi, s, ms }) => `Wed Nov ${d} ${h}:${mi}:${s}.${ms} ${y}`, START],
  ['month-first', ({ y, d, h12, mi, s, ms }) => `"Nov ${d}, ${y} ${h12}:${mi}:${s}.${ms} PM"`, START],
  ['chinese-afternoon', ({ h12, mi, s, ms }) => `下午 ${h12}:${mi}:${s}.${ms}`, null],
  ['korean-afternoon', ({ y, mo, d, h12, mi, s, ms }) => `${y}-${mo}-${d} 오후 ${h12}:${mi}:${s}.${ms}`, START],
  ['japanese-date', ({ y, mo, d, h, mi, s, ms }) => `${y}年${mo}月${d}日 ${h}:${mi}:${s}.${ms}`, START],
  ['japanese-units', ({ h, mi, s, ms }) => `${h}時${mi}分${s}.${ms}秒`, null],
  ['afternoon-with-points', ({ h12, mi, s, ms }) => `${h12}:${mi}:${s}.${ms} p. m.`, null],
];
const ELAPSED: [string, (t: string) => string][] = [
  ['with-its-unit-in-every-cell', (t) => `${t} s`],
  ['in-hours-minutes-seconds', (t) => `0h 00m ${t}s`],
  ['as-a-duration', (t) => `PT${t}S`],
  ['since-a-trigger', (t) => `T+${t}`],
  ['in-days-and-clock', (t) => `0 days 00:00:${t.padStart(6, '0')}`],
];

/** Files as laboratories abroad write them: each was misread, read in part, or refused without need before it came here. */
export function laboratoryCases(): Case[] {
  const { cases, read, refuse } = caseList({ time_s: 1e-3, acc_mps2: 6e-3, gyr_radps: 1e-3 });
  const signal = signalsFrom(3100);
  const plain = (s: KnownRecording, header = PLAIN) => table({ header, rows: sixAxes(s, seconds(s)) });

  for (const [name, write, start_utc] of CLOCKS) {
    const s = signal();
    const rows = sixAxes(s, (row) => write(partsOf(s.time_s[row])));
    read(`clock-of-${name}`, table({ header: ['timestamp', ...SIX], rows }), `Stamps such as ${rows[0][0]}.`, [
      expectSensor(s, { start_utc }),
    ]);
  }
  for (const [name, write] of ELAPSED) {
    const s = signal();
    const rows = sixAxes(s, (row) => write(s.time_s[row].toFixed(3)));
    read(`elapsed-${name}`, table({ header: ['elapsed', ...SIX], rows }), `Time such as ${rows[1][0]}.`, [
      expectSensor(s),
    ]);
  }
  let s = signal();
  const uneven = s.time_s.map((t, row) => Number((t + (row > 0 ? 0.0008 * Math.sin(2 * row) : 0)).toFixed(3)));
  for (const [name, write] of [
    ['a-colon-before-milliseconds', ({ h, mi, s: sec, ms }: Parts) => `${h}:${mi}:${sec}:${ms}`],
    ['17-digits', ({ y, mo, d, h, mi, s: sec, ms }: Parts) => `${y}${mo}${d}${h}${mi}${sec}${ms}`],
  ] as const)
    read(
      `uneven-clock-of-${name}`,
      table({ header: ['timestamp', ...SIX], rows: sixAxes(s, (row) => write(partsOf(uneven[row]))) }),
      'Rows that are not even, in stamps without a point: nothing is straightened.',
      [expectSensor(s, { time_s: (row) => uneven[row], start_utc: name === '17-digits' ? START : null })],
      { tolerance: { time_s: 1e-6, acc_mps2: 6e-3, gyr_radps: 1e-3 } },
    );
  refuse(
    'clock-with-frames-of-film',
    table({
      header: ['timecode', ...SIX],
      rows: sixAxes(s, (row) => {
        const { h, mi, s: sec, ms } = partsOf(s.time_s[row]);
        return `${h}:${mi}:${sec}:${pad(Math.floor(Number(ms) / 40))}`;
      }),
    }),
    'Frames of film behind the seconds give no instant to a row.',
    { code: 'RATE_MISSING' },
  );
  s = signal();
  refuse(
    'clock-in-too-few-digits',
    table({ header: ['timestamp', ...SIX], rows: sixAxes(s, () => '1.79562E+12') }),
    'A spreadsheet cut the digits of the stamps.',
    { code: 'RATE_MISSING' },
  );
  s = signal();
  read(
    'clock-of-the-sensor-beside-that-of-arrival',
    table({
      header: ['host_time', 'device_ms', ...SIX],
      rows: sixAxes(s, (row) => String(88_000 + 5 * row)).map((cells, row) => [
        new Date(1000 * START_S + 40 * Math.floor(row / 8) + ((row * 7919) % 13)).toISOString(),
        ...cells,
      ]),
    }),
    "When rows arrived, beside the sensor's own clock.",
    [expectSensor(s)],
  );

  // Numbers.
  const inUnits = (of: KnownRecording, write: (value: number) => string) =>
    of.time_s.map((t, i) =>
      [10_000 + 1000 * t, ...of.acc[i].map((v) => (1000 * v) / G), ...of.gyr[i].map((v) => v / DEG)].map(write),
    );
  const mg = ['t (ms)', ...AXES.map((axis) => `acc ${axis} (mg)`), ...AXES.map((axis) => `gyr ${axis} (°/s)`)];
  const locale = (place: string) => (value: number) =>
    value.toLocaleString(place, { minimumFractionDigits: 2, maximumFractionDigits: 2 });
  const grouped: [string, string, (value: number) => string][] = [
    ['thin-blanks', 'Thousands parted by thin blanks, as in French.', locale('fr-FR')],
    ['blanks', 'Thousands parted by blanks.', (value) => locale('fr-FR')(value).replace(/\s/g, ' ')],
    ['apostrophes', 'Thousands parted by apostrophes, as in Switzerland.', locale('de-CH')],
    ['points', 'Thousands parted by points, decimal commas.', locale('de-DE')],
  ];
  for (const [name, what, write] of grouped) {
    s = signal();
    read(`thousands-with-${name}`, table({ delimiter: ';', header: mg, rows: inUnits(s, write) }), what, [
      expectSensor(s),
    ]);
  }
  const spelled: [string, string, (cell: string) => string][] = [
    ['exponents-of-fortran', 'Exponents with a D.', (cell) => Number(cell).toExponential(6).replace('e', 'D')],
    ['texts-of-a-spreadsheet', 'Numbers that an apostrophe makes texts.', (cell) => `'${cell}`],
    ['formulas-of-a-spreadsheet', 'Numbers as formulas.', (cell) => `="${cell}"`],
    ['single-quotes', 'Cells in single quotes.', (cell) => `'${cell}'`],
    [
      'arabic-digits',
      'Digits and decimal mark of Arabic.',
      (cell) => cell.replace(/\d/g, (digit) => '٠١٢٣٤٥٦٧٨٩'[Number(digit)]).replace('.', '٫'),
    ],
    [
      'full-width-digits',
      'Digits in full width.',
      (cell) => cell.replace(/[0-9.-]/g, (sign) => String.fromCharCode(sign.charCodeAt(0) + 0xfee0)),
    ],
  ];
  for (const [name, what, spell] of spelled) {
    s = signal();
    const rows = sixAxes(s, seconds(s)).map((cells) => cells.map(spell));
    read(`numbers-in-${name}`, table({ header: PLAIN, rows }), what, [expectSensor(s)]);
  }
  for (const [name, number] of [
    ['minus-999', '-999'],
    ['99-99', '99.99'],
  ]) {
    s = signal();
    const lost = [50, 51, 120];
    const rows = sixAxes(s, seconds(s)).map((cells, row) =>
      lost.includes(row) ? [cells[0], ...SIX.map(() => number)] : cells,
    );
    const kept = s.time_s.map((_, row) => row).filter((row) => !lost.includes(row));
    read(
      `not-measured-as-${name}`,
      table({ header: PLAIN, rows }),
      `${number} in every channel where nothing was measured.`,
      [
        expectSensor(s, {
          kept,
          gaps: [
            { start_s: 0.245, end_s: 0.26, lost_samples: 2 },
            { start_s: 0.595, end_s: 0.605, lost_samples: 1 },
          ],
          time_s: (row) => s.time_s[kept[row]],
        }),
      ],
      { faults: ['SAMPLES_LOST', 'SAMPLES_FILLED'] },
    );
  }
  s = signal();
  const unsigned = (value: number) => String((Math.round(value) + 65_536) % 65_536);
  refuse(
    'counts-without-their-sign',
    table({
      preamble: ['Scale: 1024 LSB/g; 8.2 LSB/dps'],
      header: ['time_ms', 'ax', 'ay', 'az', 'gx', 'gy', 'gz'],
      rows: s.time_s.map((_, i) => [
        String(5 * i),
        ...s.acc[i].map((v) => unsigned((-1024 * v) / G)),
        ...s.gyr[i].map((v) => unsigned((8.2 * v) / DEG)),
      ]),
    }),
    'Negative counts written as numbers above 32767.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'acceleration unit' },
  );

  // Names above the columns.
  const [left, right] = [signal(), signal(80, 80)];
  const deg = { per_si: 1 / DEG, decimals: 3 };
  const g = { per_si: 1 / G, decimals: 5 };
  const both = sixAxes(left, seconds(left), g, deg).map((cells, row) => [
    ...cells,
    ...sixAxes(right, seconds(right), g, deg)[row].slice(1),
  ]);
  const feet = [expectSensor(left, { side: 'left' }), expectSensor(right, { side: 'right' })];
  read(
    'three-lines-of-merged-names',
    table({
      preamble: [
        ',Left Foot,,,,,,Right Foot,,,,,',
        ',Acceleration,,,Angular Velocity,,,Acceleration,,,Angular Velocity,,',
      ],
      header: ['Time', ...AXES, ...AXES, ...AXES, ...AXES].map((name) => name.toUpperCase()),
      units: ['s', 'g', 'g', 'g', '°/s', '°/s', '°/s', 'g', 'g', 'g', '°/s', '°/s', '°/s'],
      rows: both,
    }),
    'Foot over quantity over axis, then units, as merged cells are saved.',
    feet,
  );
  read(
    'sensors-numbered-behind-their-axes',
    table({
      header: ['time_s', ...['A', 'G'].flatMap((q) => AXES.map((axis) => `${q}${axis.toUpperCase()}`)), 'T'],
      rows: sixAxes(left, seconds(left), g, deg).map((cells) => [...cells, '21.5']),
    }).replace(/^time_s.*$/m, (line) => line.replace(/,([AG][XYZ])/g, ',$11')),
    'One sensor whose names carry a number.',
    [expectSensor(left)],
  );
  refuse(
    'two-sensors-numbered-behind-their-axes',
    table({
      header: ['time_s', ...[1, 2].flatMap((n) => ['A', 'G'].flatMap((q) => ['X', 'Y', 'Z'].map((a) => q + a + n)))],
      rows: both,
    }),
    'Sensors 1 and 2 side by side: asked which is left.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'sensor', fewest_choices: 4 },
  );
  s = signal();
  read(
    'one-name-over-three-columns',
    table({
      header: ['Time (s)', 'Acceleration (m/s2)', '', '', 'Gyroscope (rad/s)', '', ''],
      rows: sixAxes(s, seconds(s)),
    }),
    'One name over the three axes of each quantity.',
    [expectSensor(s)],
  );
  s = signal();
  read(
    'columns-numbered-under-their-names',
    plain(s).replace('\n', '\n1,2,3,4,5,6,7\n'),
    'A line that numbers the columns is no row.',
    [expectSensor(s)],
  );
  s = signal();
  read(
    'remarks-beside-the-first-rows',
    plain(s)
      .split('\n')
      .map((line, i) => (i === 1 || i === 2 ? `${line},,windy` : line))
      .join('\n'),
    'Remarks beside the first rows: these rows are told, not passed over.',
    [expectSensor(s, { kept: s.time_s.map((_, row) => row).slice(2) })],
    { faults: ['ROWS_SET_ASIDE'], rejected_lines: [2, 3] },
  );
  s = signal();
  read(
    'names-that-are-paths',
    plain(s, [
      'time',
      ...AXES.map((axis) => `/left_foot/linear_acceleration/${axis}`),
      ...AXES.map((axis) => `/left_foot/angular_velocity/${axis}`),
    ]),
    'Names as paths; acceleration called linear that rests at 1 g.',
    [expectSensor(s, { side: 'left' })],
  );
  const units: [string, string, number, string, number][] = [
    ['thousandths-of-g', '0.001 g', 1000 / G, '0.1 deg/s', 10 / DEG],
    ['g-times-a-thousand', 'g*1000', 1000 / G, 'dps*10', 10 / DEG],
    ['powers-of-ten', 'x10^-3 g', 1000 / G, 'x10^-1 °/s', 10 / DEG],
    ['words', 'metre per second squared', 1, 'degrees per second', 1 / DEG],
    ['kilometres-an-hour-a-second', 'km/h/s', 3.6, 'deg/min', 60 / DEG],
    ['inches', 'in/s²', 1 / 0.0254, 'rev/min', 30 / Math.PI],
  ];
  for (const [name, acc, perAcc, gyr, perGyr] of units) {
    s = signal();
    read(
      `units-in-${name}`,
      table({
        header: [
          'time (s)',
          ...AXES.map((axis) => `acc ${axis} [${acc}]`),
          ...AXES.map((axis) => `gyr ${axis} [${gyr}]`),
        ],
        rows: sixAxes(s, seconds(s), { per_si: perAcc, decimals: 3 }, { per_si: perGyr, decimals: 2 }),
      }),
      `Units written as ${acc} and ${gyr}.`,
      [expectSensor(s)],
    );
  }
  s = signal();
  refuse(
    'rates-in-a-unit-of-something-else',
    table({
      header: ['time (s)', ...AXES.map((axis) => `acc ${axis} [m/s2]`), ...AXES.map((axis) => `gyr ${axis} [mV]`)],
      rows: sixAxes(s, seconds(s)),
    }),
    'Named as angular rate, in millivolts: asked, not left out.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'gyroscope', fewest_choices: 2 },
  );
  s = signal();
  read(
    'scales-in-the-names',
    table({
      header: ['time_ms', ...AXES.map((a) => `acc_${a} (0.488 mg/LSB)`), ...AXES.map((a) => `gyr_${a} (70 mdps/LSB)`)],
      rows: s.time_s.map((_, i) => [
        String(5 * i),
        ...s.acc[i].map((v) => (v / G / 0.000488).toFixed(0)),
        ...s.gyr[i].map((v) => (v / DEG / 0.07).toFixed(0)),
      ]),
    }),
    'Counts whose size stands in the names.',
    [expectSensor(s)],
  );
  s = signal();
  read(
    'scatter-of-the-acceleration-beside-it',
    table({
      header: [...PLAIN, 'acc_x_sd', 'acc_y_sd', 'acc_z_sd'],
      rows: sixAxes(s, seconds(s)).map((cells, i) => [...cells, ...[9, 7, 5].map((n) => (0.01 * (i % n)).toFixed(2))]),
    }),
    'The scatter of each axis is no second sensor.',
    [expectSensor(s)],
  );

  // Several people, several segments.
  const people = [signal(), signal(), signal()];
  const stacked = (column: string, values: string[]) =>
    table({
      header: [column, ...PLAIN],
      rows: people.flatMap((own, k) => sixAxes(own, seconds(own)).map((cells) => [values[k], ...cells])),
    });
  for (const [name, column, values] of [
    ['people', 'subject', ['S01', 'S02', 'S03']],
    ['people-by-number', 'ID', ['1', '2', '3']],
    ['people-in-german', 'Proband', ['P1', 'P2', 'P3']],
    ['recordings', 'file', ['a', 'b', 'c']],
  ] as const)
    refuse(
      `several-${name}-one-below-the-other`,
      stacked(column, [...values]),
      `${column}: asked whose rows to read.`,
      {
        code: 'LAYOUT_AMBIGUOUS',
        about: 'rows',
        fewest_choices: 3,
      },
    );
  refuse(
    'several-people-in-turn',
    table({
      header: ['athlete', ...PLAIN],
      rows: people[0].time_s.flatMap((_, row) =>
        people.map((own, k) => [`Invented ${k + 1}`, ...sixAxes(own, seconds(own))[row]]),
      ),
    }),
    'Rows of three people in turn are no sensor of three times the rate.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'rows', fewest_choices: 3 },
  );
  read(
    'one-of-several-people',
    stacked('subject', ['S01', 'S02', 'S03']),
    'Of three people the one that is asked for; the others are told.',
    [expectSensor(people[1])],
    { tolerance: { time_s: 1e-4, acc_mps2: 1e-3, gyr_radps: 2e-4 }, faults: ['ROWS_PASSED_OVER'] },
    { layout: { rows_of: { column: 'subject', values: ['S02'] } } },
  );
  const segments = table({
    header: ['time_s', 'segment', ...SIX],
    rows: left.time_s.flatMap((_, row) =>
      [
        ['LeftFoot', left],
        ['RightFoot', right],
        ['Pelvis', people[0]],
      ].map(([name, own]) => [
        left.time_s[row].toFixed(4),
        name as string,
        ...sixAxes(own as KnownRecording, () => '')[row].slice(1),
      ]),
    ),
  });
  read(
    'feet-among-other-segments',
    segments,
    'Rows of both feet and a pelvis: the feet are read, the pelvis is told.',
    feet,
    {
      faults: ['ROWS_PASSED_OVER'],
    },
  );
  const suit = ['Pelvis', 'RightShank', 'RightFoot', 'LeftShank', 'LeftFoot'];
  refuse(
    'columns-of-a-suit',
    table({
      header: [
        'time_s',
        ...suit.flatMap((name) => ['acc', 'gyr'].flatMap((q) => AXES.map((a) => `${name}_${q}_${a}`))),
      ],
      rows: left.time_s.map((_, row) => [
        left.time_s[row].toFixed(4),
        ...suit.flatMap((name, k) => sixAxes(name.startsWith('Left') ? left : people[k % 3], () => '')[row].slice(1)),
      ]),
    }),
    'Five segments side by side: asked for feet or shanks, or one alone.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'sensor', fewest_choices: 7 },
  );

  // Text that is no table.
  s = signal();
  const rows = sixAxes(s, seconds(s));
  refuse(
    'lists-of-a-program',
    `${PLAIN.join(', ')}\n${rows.map((r) => `[${r.join(', ')}]`).join('\n')}\n`,
    'Rows in brackets.',
    {
      code: 'NOT_A_RECORDING',
    },
  );
  refuse(
    'vectors-in-cells',
    `time\tfoot_acc\tfoot_gyr\n${rows.map((r) => [r[0], r.slice(1, 4).join(','), r.slice(4).join(',')].join('\t')).join('\n')}\n`,
    'Three numbers a cell.',
    { code: 'NOT_A_RECORDING' },
  );
  refuse(
    'table-on-its-side-without-names',
    `${Array.from({ length: 7 }, (_, k) => [...rows, ...rows].map((r) => r[k]).join(',')).join('\n')}\n`,
    'A row a quantity, without names.',
    { code: 'NOT_A_RECORDING' },
  );
  refuse(
    'sentences-with-checksums',
    rows.map((r) => `$IMU,${r.join(',')}*5A\n`).join(''),
    'No names, and the last number hangs on a checksum: asked about the angular rate, not read without it.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'gyroscope', fewest_choices: 1 },
  );
  refuse(
    'joint-angles',
    `run\nnRows=160\nendheader\n${table({ delimiter: '\t', header: ['time', 'hip_flexion', 'knee_angle', 'ankle_angle', 'pelvis_tilt'], rows: s.time_s.map((t) => [t.toFixed(4), ...[1, 2, 3, 4].map((k) => (30 * Math.sin(9 * t + k)).toFixed(4))]) })}`,
    'Angles of joints, no acceleration.',
    { code: 'COLUMN_MISSING' },
  );

  // Files of other programs, by the bytes that their formats lay down; what follows is noise.
  const noise = Buffer.from(Array.from({ length: 2000 }, (_, i) => (i * 7919 + (i >> 3)) % 256));
  const latin = (text: string) => Buffer.from(text, 'latin1');
  const formats: [string, Buffer][] = [
    ['npy', Buffer.concat([Buffer.from([0x93]), latin('NUMPY\x01\0v\0{"descr": "<f8"}')])],
    ['matlab-73', Buffer.concat([latin('MATLAB 7.3 MAT-file'.padEnd(512)), Buffer.from([0x89, 0x48, 0x44, 0x46])])],
    ['feather', latin('FEA1')],
    ['pickle', Buffer.from([0x80, 4, 0x95, 0x1b])],
    ['rds', latin('X\n\0\0\0\x03\0\x04')],
    ['rdata', latin('RDX3\nX\n')],
    ['sav', latin('$FL2@(#)')],
    ['dta', latin('<stata_dta><header>')],
    ['avro', latin('Obj\x01')],
    ['mcap', Buffer.from([0x89, 0x4d, 0x43, 0x41, 0x50])],
    ['wave', latin('RIFF\x24\x08\0\0WAVEfmt ')],
    ['c3d', Buffer.from([4, 0x50, 12, 0, 0, 0, 1, 0])],
    ['lz4', Buffer.from([4, 0x22, 0x4d, 0x18])],
    ['utf-32', Buffer.from([0xff, 0xfe, 0, 0, 0x74, 0, 0, 0])],
  ];
  for (const [name, begin] of formats)
    refuse(`other-format-${name}`, Buffer.concat([begin, noise]), `A file of format ${name}.`, {
      code: 'FILE_NOT_TEXT',
    });
  return cases;
}
