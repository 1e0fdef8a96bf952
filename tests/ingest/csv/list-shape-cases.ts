import { gzipSync } from 'node:zlib';
import { AXES, type Case, caseList, DEG, expectSensor, G, seconds, sixAxes, table } from './case-tools.ts';
import { makeSignal } from './make-signal.ts';
import { encode } from './random-files/code-pages.ts';
import { LANGUAGES } from './random-files/languages.ts';

const START_S = Date.UTC(2026, 10, 25, 14, 3, 22) / 1000;
const START = '2026-11-25T14:03:22.000Z';
const names = (acc: string, gyr: string, unit: [string, string]) => [
  ...AXES.map((axis) => `${acc} ${axis}${unit[0] && ` [${unit[0]}]`}`),
  ...AXES.map((axis) => `${gyr} ${axis}${unit[1] && ` [${unit[1]}]`}`),
];
const slug = (text: string) =>
  text
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

/** Shapes by the family: names by language, units by spelling, clocks, code pages, scales above the table, damage. */
export function shapeCases(): Case[] {
  const { cases, read: put, refuse } = caseList({ time_s: 1e-4, acc_mps2: 6e-3, gyr_radps: 6e-4 });
  let seed = 4000;
  const signal = () => makeSignal(seed++, 200, 80, 40);

  // Twenty languages, each in a code page of its own, with a file name that tells the side.
  for (const [at, language] of LANGUAGES.entries()) {
    const s = signal();
    const header = [`${language.time[0]} (s)`, ...names(language.acc[0], language.gyr[0], ['m/s2', 'rad/s'])];
    const text = table({ header, rows: sixAxes(s, seconds(s)) });
    const page = language.pages[at % language.pages.length];
    put(
      `names-${slug(language.name)}`,
      encode(text, page) ?? Buffer.from(text),
      `Names in ${language.name}, as ${page}.`,
      [expectSensor(s)],
    );
  }
  for (const language of LANGUAGES.filter((_l, at) => at % 2 === 0)) {
    const s = signal();
    const r = makeSignal(seed++, 200, 80, 40);
    const side = (word: string) => names(`${word} ${language.acc[0]}`, `${word} ${language.gyr[0]}`, ['m/s2', 'rad/s']);
    const [left, right] = [language.left[0], language.right[0]];
    const rows = sixAxes(s, seconds(s)).map((cells, row) => [...cells, ...sixAxes(r, seconds(r))[row].slice(1)]);
    put(
      `both-feet-${slug(language.name)}`,
      Buffer.from(table({ header: ['time (s)', ...side(left), ...side(right)], rows })),
      `Both feet side by side, told by the ${language.name} words for left and right.`,
      [expectSensor(s, { side: 'left' }), expectSensor(r, { side: 'right' })],
    );
  }

  // Spellings of units.
  const accUnits: [string, number, number][] = [
    ["g's", 1 / G, 5],
    ['milli-g', 1000 / G, 2],
    ['µg', 1e6 / G, 0],
    ['ug', 1e6 / G, 0],
    ['m·s⁻²', 1, 4],
    ['m s^-2', 1, 4],
    ['ｍ/ｓ２', 1, 4],
    ['м/с²', 1, 4],
    ['米/秒²', 1, 4],
    ['cm/s²', 100, 1],
    ['mm/s2', 1000, 0],
  ];
  for (const [spelling, per_si, decimals] of accUnits) {
    const s = signal();
    const header = ['time_s', ...names('acc', 'gyr', [spelling, 'rad/s'])];
    put(
      `acceleration-in-${slug(spelling) || 'han'}-${accUnits.findIndex(([u]) => u === spelling)}`,
      Buffer.from(table({ header, rows: sixAxes(s, seconds(s), { per_si, decimals }) })),
      `Acceleration in "${spelling}".`,
      [expectSensor(s)],
    );
  }
  const gyrUnits: [string, number, number][] = [
    ['°·s⁻¹', 1 / DEG, 2],
    ['deg s⁻¹', 1 / DEG, 2],
    ['º/s', 1 / DEG, 2],
    ['град/с', 1 / DEG, 2],
    ['度/秒', 1 / DEG, 2],
    ['graus/s', 1 / DEG, 2],
    ['derece/s', 1 / DEG, 2],
    ['degrés/s', 1 / DEG, 2],
    ['m°/s', 1000 / DEG, 0],
    ['rad·s⁻¹', 1, 5],
    ['рад/с', 1, 5],
    ['rad s^-1', 1, 5],
  ];
  for (const [at, [spelling, per_si, decimals]] of gyrUnits.entries()) {
    const s = signal();
    const header = ['time_s', ...names('acc', 'gyr', ['m/s2', spelling])];
    put(
      `rates-in-${slug(spelling) || 'other-script'}-${at}`,
      Buffer.from(table({ header, rows: sixAxes(s, seconds(s), undefined, { per_si, decimals }) })),
      `Angular rate in "${spelling}".`,
      [expectSensor(s)],
    );
  }
  for (const [at, sign] of [' / ', ', ', '; ', ': ', ' in '].entries()) {
    const s = signal();
    const header = [
      'time_s',
      ...AXES.map((axis) => `acc ${axis}${sign}m/s2`),
      ...AXES.map((axis) => `gyr ${axis}${sign}rad/s`),
    ];
    put(
      `unit-behind-a-sign-${at}`,
      Buffer.from(table({ header, delimiter: '\t', rows: sixAxes(s, seconds(s)) })),
      `Unit behind "${sign.trim()}" in the name.`,
      [expectSensor(s)],
    );
  }
  const letters: [string, string][] = [
    ['a', 'w'],
    ['a', 'ω'],
    ['Ac', 'Gy'],
    ['acel_', 'giro_'],
    ['acc', 'angvel'],
    ['ACCEL_', 'GYRO_'],
    ['Уск', 'Гир'],
  ];
  for (const [at, [a, g]] of letters.entries()) {
    const s = signal();
    const header = [
      'time_s',
      ...AXES.map((axis) => `${a}${axis.toUpperCase()} (m/s2)`),
      ...AXES.map((axis) => `${g}${axis.toUpperCase()} (rad/s)`),
    ];
    put(
      `letters-of-quantities-${at}`,
      Buffer.from(table({ header, rows: sixAxes(s, seconds(s)) })),
      `Columns called ${a}X and ${g}X.`,
      [expectSensor(s)],
    );
  }

  // Clocks.
  const clocks: [string, string, (t: number) => string, string | null, number][] = [
    ['spreadsheet-days', 'Date', (t) => (25_569 + (START_S + t) / 86_400).toFixed(11), START, 1e-4],
    ['matlab-days', 'datenum', (t) => (719_529 + (START_S + t) / 86_400).toFixed(10), START, 1e-4],
    ['julian-days', 'JD', (t) => (2_440_587.5 + (START_S + t) / 86_400).toFixed(9), START, 2e-4],
    [
      'ticks-since-the-year-1',
      'Ticks',
      (t) => String(621_355_968_000_000_000n + BigInt(START_S) * 10_000_000n + BigInt(Math.round(t * 1e7))),
      START,
      1e-4,
    ],
    [
      'ticks-since-1601',
      'FileTime',
      (t) => String(116_444_736_000_000_000n + BigInt(START_S) * 10_000_000n + BigInt(Math.round(t * 1e7))),
      START,
      1e-4,
    ],
    [
      'unix-nanoseconds',
      'epoch',
      (t) => String(BigInt(START_S) * 1_000_000_000n + BigInt(Math.round(t * 1e9))),
      START,
      1e-4,
    ],
    [
      'unix-microseconds',
      'unix',
      (t) => String(BigInt(START_S) * 1_000_000n + BigInt(Math.round(t * 1e6))),
      START,
      1e-4,
    ],
    ['decimal-hours', 'time_h', (t) => (14 + t / 3600).toFixed(9), null, 1e-4],
    ['decimal-minutes', 'Time [min]', (t) => (14 + t / 60).toFixed(8), null, 1e-4],
    ['ten-microseconds', 'time_10us', (t) => String(Math.round(t * 1e5)), null, 1e-4],
    ['hundred-microseconds', 'time [100us]', (t) => String(Math.round(t * 1e4)), null, 1e-4],
    ['hundred-nanoseconds', 'time (100ns)', (t) => String(Math.round(t * 1e7)), null, 1e-4],
    ['cyrillic-milliseconds', 'Время, мс', (t) => (t * 1000).toFixed(0), null, 1e-4],
    ['japanese-seconds', '時間 (秒)', (t) => t.toFixed(4), null, 1e-4],
  ];
  for (const [name, column, cell, start_utc, time_s] of clocks) {
    const s = signal();
    const header = [column, ...names('acc', 'gyr', ['m/s2', 'rad/s'])];
    put(
      `clock-of-${name}`,
      Buffer.from(table({ header, rows: sixAxes(s, (row) => cell(s.time_s[row])) })),
      `Time as ${name.replaceAll('-', ' ')} in "${column}".`,
      [expectSensor(s, { start_utc })],
      {
        tolerance: { time_s, acc_mps2: 6e-3, gyr_radps: 6e-4 },
      },
    );
  }

  // What stands above the table.
  const above: [string, string[], number, number][] = [
    [
      'size-of-a-count',
      ['acc sensitivity 0.488 mg/LSB', 'gyr sensitivity 70 mdps/LSB'],
      1000 / 0.488 / G,
      1000 / 70 / DEG,
    ],
    [
      'size-of-a-count-in-words',
      ['Accelerometer 0.976 mg per LSB', 'Gyroscope 140 mdps per LSB'],
      1000 / 0.976 / G,
      1000 / 140 / DEG,
    ],
    ['size-of-a-digit', ['0.244 mg/digit; 70 mdps/digit'], 1000 / 0.244 / G, 1000 / 70 / DEG],
    ['counts-a-unit', ['2048 LSB/g, 16.4 LSB/dps'], 2048 / G, 16.4 / DEG],
  ];
  for (const [name, preamble, perAcc, perGyr] of above) {
    const s = signal();
    const header = ['time_s', ...names('acc', 'gyr', ['', ''])];
    put(
      `scale-above-${name}`,
      Buffer.from(
        table({
          preamble,
          header,
          rows: sixAxes(s, seconds(s), { per_si: perAcc, decimals: 0 }, { per_si: perGyr, decimals: 0 }),
        }),
      ),
      `Counts, with "${preamble.join('; ')}" above the table.`,
      [expectSensor(s)],
      {
        tolerance: { time_s: 1e-4, acc_mps2: 6e-3, gyr_radps: 2e-3 },
      },
    );
  }
  for (const [at, line] of [
    'Частота дискретизации: 200 Гц',
    'サンプリング周波数: 200 Hz',
    '采样频率: 200 Hz',
    '샘플링 주파수: 200 Hz',
    'Częstotliwość: 200 Hz',
    'Sampling interval: 5 ms',
  ].entries()) {
    const s = signal();
    const rows = sixAxes(s, seconds(s)).map((cells) => cells.slice(1));
    put(
      `rate-above-the-table-${at}`,
      Buffer.from(table({ preamble: [line], header: names('acc', 'gyr', ['m/s2', 'rad/s']), rows })),
      `Rows without time; "${line}" above them.`,
      [expectSensor(s)],
    );
  }
  for (const [at, extra] of ['Pression [hPa]', '気圧', 'Температура', 'Battery (V)', 'Sıcaklık'].entries()) {
    const s = signal();
    const rows = sixAxes(s, seconds(s)).map((cells, row) => [...cells.slice(1), (1013 + 0.0002 * row).toFixed(4)]);
    put(
      `rising-column-is-no-clock-${at}`,
      Buffer.from(
        table({
          preamble: ['Sampling rate: 200 Hz'],
          header: [...names('acc', 'gyr', ['m/s2', 'rad/s']), extra],
          rows,
        }),
      ),
      `"${extra}" rises with every row and is no time.`,
      [expectSensor(s)],
    );
  }

  // Loss and damage.
  for (const kind of ['zeros', 'held'] as const) {
    for (const length of [5, 12, 20]) {
      const s = signal();
      const lost = (row: number) => row >= 95 && row < 95 + length;
      const kept = s.time_s.map((_, row) => row).filter((row) => !lost(row));
      const rows = sixAxes(s, seconds(s));
      const filled = rows.map((cells, row) =>
        lost(row) ? [cells[0], ...(kind === 'zeros' ? cells.slice(1).map(() => '0') : rows[94].slice(1))] : cells,
      );
      put(
        `lost-rows-as-${kind}-${length}`,
        Buffer.from(table({ header: ['time_s', ...names('acc', 'gyr', ['m/s2', 'rad/s'])], rows: filled })),
        `${length} lost rows that the logger filled with ${kind === 'zeros' ? 'zeros' : 'the last values'}.`,
        [
          expectSensor(s, {
            kept,
            gaps: [{ start_s: s.time_s[94], end_s: s.time_s[95 + length], lost_samples: length }],
          }),
        ],
        { faults: ['SAMPLES_FILLED', 'SAMPLES_LOST'] },
      );
    }
  }
  for (const [axis, channel] of [
    ['acceleration', 2],
    ['rate', 4],
  ] as const) {
    const s = signal();
    for (let row = 0; row < s.time_s.length; row++) (channel < 3 ? s.acc : s.gyr)[row][channel % 3] = 0.25;
    put(
      `stuck-axis-of-${axis}`,
      Buffer.from(
        table({ header: ['time_s', ...names('acc', 'gyr', ['m/s2', 'rad/s'])], rows: sixAxes(s, seconds(s)) }),
      ),
      `One axis of ${axis} gives the same value throughout.`,
      [expectSensor(s)],
      { faults: ['AXIS_STUCK'] },
    );
  }

  // Boxes around the text.
  for (const page of ['utf-16le', 'utf-16le-bom', 'utf-16be-bom', 'utf-8-bom'] as const) {
    const s = signal();
    const text = table({
      header: ['時間 (s)', ...names('加速度', '角速度', ['m/s2', 'rad/s'])],
      newline: '\r\n',
      rows: sixAxes(s, seconds(s)),
    });
    put(`japanese-as-${page}`, encode(text, page)!, `Japanese names as ${page}.`, [expectSensor(s)]);
  }
  for (const members of [2, 5]) {
    const s = signal();
    const text = Buffer.from(
      table({ header: ['time_s', ...names('acc', 'gyr', ['m/s2', 'rad/s'])], rows: sixAxes(s, seconds(s)) }),
    );
    const cut = Math.ceil(text.length / members);
    const parts = Array.from({ length: members }, (_, i) => gzipSync(text.subarray(i * cut, (i + 1) * cut)));
    put(
      `gzip-of-${members}-members`,
      Buffer.concat(parts),
      `A gzip file of ${members} members, cut within rows.`,
      [expectSensor(s)],
      {},
      undefined,
      'input.csv.gz',
    );
  }

  // What cannot be read as it is, and says what it is.
  const s = signal();
  const unknown = ['time_s', ...AXES.map((axis) => `acc_${axis} [m/s2]`), ...AXES.map((axis) => `vrtnja ${axis}`)];
  refuse(
    'ambiguous-unknown-names-of-rates',
    table({ header: unknown, rows: sixAxes(s, seconds(s)) }),
    'Three columns of one group whose names no language at hand knows.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'gyroscope', fewest_choices: 2 },
  );
  const rotation = ['time_s', ...AXES.map((axis) => `acc_${axis} [m/s2]`), 'P1 (deg/s)', 'P2 (deg/s)', 'P3 (deg/s)'];
  refuse(
    'ambiguous-columns-in-a-unit-of-rotation',
    table({ header: rotation, rows: sixAxes(s, seconds(s), undefined, { per_si: 1 / DEG, decimals: 2 }) }),
    'Columns in deg/s under names that say nothing.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'gyroscope', fewest_choices: 2 },
  );
  for (const [name, head, what] of [
    ['bzip2', Buffer.from('BZh91AY&SY', 'latin1'), 'bzip2'],
    ['xz', Buffer.from([0xfd, 0x37, 0x7a, 0x58, 0x5a, 0]), 'xz'],
    ['pdf', Buffer.from('%PDF-1.7\n%\xe2\xe3\xcf\xd3\n', 'latin1'), 'PDF'],
    ['sqlite', Buffer.from('SQLite format 3\0', 'latin1'), 'SQLite'],
    ['parquet', Buffer.from('PAR1', 'latin1'), 'Parquet'],
    ['7z', Buffer.from([0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c]), '7-Zip'],
    ['zstd', Buffer.from([0x28, 0xb5, 0x2f, 0xfd]), 'Zstandard'],
    ['hdf5', Buffer.from([0x89, 0x48, 0x44, 0x46, 0x0d, 0x0a, 0x1a, 0x0a]), 'HDF5 or MATLAB 7.3'],
  ] as [string, Buffer, string][])
    refuse(
      `other-format-${name}`,
      Buffer.concat([head, Buffer.from(Array.from({ length: 400 }, (_, i) => (i * 37) % 256))]),
      `A ${what} file under the name of a table.`,
      { code: 'FILE_NOT_TEXT' },
    );
  refuse(
    'one-line-of-json',
    `[${sixAxes(s, seconds(s))
      .map((cells) => `{"t":${cells[0]},"ax":${cells[1]},"ay":${cells[2]},"az":${cells[3]}}`)
      .join(',')}]`,
    'JSON in one line.',
    { code: 'NOT_A_RECORDING' },
  );
  const rows = sixAxes(s, seconds(s));
  const transposed = ['time_s', 'acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'].map((name, column) =>
    [name, ...rows.map((cells) => cells[column])].join(','),
  );
  refuse('transposed', `${transposed.join('\n')}\n`, 'Every quantity in a row of its own.', {
    code: 'NOT_A_RECORDING',
  });
  return cases;
}
