import {
  type Case,
  caseList,
  DEG,
  expectSensor,
  G,
  pad,
  seconds,
  signalsFrom,
  SIX,
  sixAxes,
  table,
} from './case-tools.ts';

const DAY_S = 50_602;
const START = '2026-11-25T14:03:22.000Z';
const clock = (t: number, digits = 4) =>
  `${pad(t / 3600)}:${pad((t / 60) % 60)}:${pad(t % 60)}.${pad(Math.round((t % 1) * 10 ** digits) % 10 ** digits, digits)}`;

/** Shapes that random files of strangers had and that were misread, or refused without need, before they came here. */
export function strangerCases(): Case[] {
  const { cases, read, refuse } = caseList({ time_s: 1e-4, acc_mps2: 2e-3, gyr_radps: 2e-4 });
  const signal = signalsFrom(1700);

  let s = signal();
  read(
    'stamps-with-blanks-between-tabs',
    table({
      delimiter: '\t',
      header: ['timestamp', ...SIX],
      rows: sixAxes(s, (row) => `2026-11-25 ${clock(DAY_S + s.time_s[row])}`),
    }),
    'Tabs part the columns, and a blank parts the date from the clock.',
    [expectSensor(s, { start_utc: START })],
  );

  s = signal();
  read(
    'lines-in-quotes',
    table({ header: ['time_s', ...SIX], rows: sixAxes(s, seconds(s)) }).replace(/.+/g, '"$&"'),
    'Every line in quotes as a whole, as a spreadsheet saves a table of one column.',
    [expectSensor(s)],
  );

  s = signal();
  const uneven = s.time_s.map((t, row) => (row > 0 ? t + 0.0006 * Math.sin(row) : t));
  read(
    'uneven-stamps-with-a-zone',
    table({
      header: ['time', ...SIX],
      rows: sixAxes(s, (row) => `2026-11-25T${clock(DAY_S + 3600 + uneven[row])}+01:00`),
    }),
    'Stamps of a zone of their own whose rows are not even: nothing may be straightened.',
    [expectSensor(s, { start_utc: START, time_s: (row) => Number(uneven[row].toFixed(4)) })],
  );

  s = signal();
  const exponents = (cells: string[]) => cells.map((cell) => Number(cell).toExponential());
  read(
    'uneven-stamps-with-exponents',
    table({ header: ['time_s', ...SIX], rows: sixAxes(s, (row) => uneven[row].toFixed(4)).map(exponents) }),
    'Numbers with exponents, and rows that are not even.',
    [expectSensor(s, { time_s: (row) => Number(uneven[row].toFixed(4)) })],
  );

  s = signal();
  const stuck = { ...s, gyr: s.gyr.map(([x, , z]) => [x, 0, z]) };
  read(
    'letters-and-a-stuck-rate',
    table({
      header: ['time_s', 'aX', 'aY', 'aZ', 'gX', 'gY', 'gZ'],
      rows: sixAxes(stuck, seconds(s), { per_si: 1 / G, decimals: 5 }, { per_si: 1 / DEG, decimals: 3 }),
    }),
    'Letters with capital axes, of which one rate never changes.',
    [expectSensor(stuck)],
    { faults: ['AXIS_STUCK'] },
  );

  s = signal();
  read(
    'units-row-nobody-knows',
    table({
      header: ['time_s', 'acc x', 'acc y', 'acc z', 'gyr x', 'gyr y', 'gyr z'],
      units: ['', 'zorg', 'zorg', 'zorg', 'blip', 'blip', 'blip'],
      rows: sixAxes(s, seconds(s), { per_si: 1 / G, decimals: 5 }, { per_si: 1 / DEG, decimals: 3 }),
    }),
    'A row of units in no known spelling: the data tell them.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'thai-names',
    table({
      header: ['เวลา (s)', ...'XYZ']
        .map((axis, i) => (i === 0 ? axis : `ความเร่ง ${axis}`))
        .concat([...'XYZ'].map((axis) => `ความเร็วเชิงมุม ${axis}`)),
      rows: sixAxes(s, seconds(s), { per_si: 1 / G, decimals: 5 }, { per_si: 1 / DEG, decimals: 3 }),
    }),
    'Names in Thai, whose vowels are marks.',
    [expectSensor(s)],
  );

  const [left, right] = [signal(), signal()];
  const both = sixAxes(left, seconds(left)).map((cells, row) => [
    ...cells,
    ...sixAxes(right, seconds(right))[row].slice(1),
  ]);
  refuse(
    'two-titled-sets-of-columns',
    `,Sensor A,,,,,,Sensor B,,,,,\n${table({ header: ['time_s', ...SIX, ...SIX], rows: both })}`,
    'Two sets of columns under titles that name no side: asked which is left, or which one to read.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'sensor', fewest_choices: 4 },
  );
  refuse(
    'intervals-of-sensors-in-turn',
    table({
      header: ['dt_ms', 'sensor', ...SIX],
      rows: both.flatMap((cells) => [
        ['5.000', 'left', ...cells.slice(1, 7)],
        ['5.000', 'right', ...cells.slice(7)],
      ]),
    }),
    'The time since the row before, where rows of two sensors take turns: whose row is asked.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'time', fewest_choices: 2 },
  );
  const shaken = signal(0, 200);
  refuse(
    'names-nobody-knows',
    table({
      header: ['time_s', 'foo x', 'foo y', 'foo z', 'bar x', 'bar y', 'bar z'],
      rows: sixAxes(shaken, seconds(shaken), { per_si: 3, decimals: 4 }, { per_si: 7, decimals: 4 }),
    }),
    'Names and units that nobody knows, and no rest: asked which three columns are the acceleration.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'acceleration', fewest_choices: 2 },
  );
  refuse(
    'letters-behind-words',
    table({
      header: ['time_s', ...SIX.slice(0, 3), 'spin a', 'spin b', 'spin c'],
      rows: sixAxes(shaken, seconds(shaken)),
    }),
    'Three columns that differ in a letter, which alone would stand for acceleration and magnetic field: asked whether they are the rate.',
    { code: 'LAYOUT_AMBIGUOUS', about: 'gyroscope', fewest_choices: 2 },
  );
  s = signal();
  const arabic = ['تسارع س (م/ث²)', 'تسارع ص (م/ث²)', 'تسارع ع (م/ث²)'];
  read(
    'arabic-letters-of-axes',
    table({
      header: ['الزمن (ث)', ...arabic, ...['س', 'ص', 'ع'].map((axis) => `السرعة الزاوية ${axis} (rad/s)`)],
      rows: sixAxes(s, seconds(s)),
    }),
    'Arabic names, units and letters of the axes.',
    [expectSensor(s)],
  );
  s = signal();
  read(
    'clock-full-every-few-rows',
    table({
      header: ['time_us', ...SIX],
      rows: sixAxes(s, (row) => String(Math.round(s.time_s[row] * 1e6) % 65_536)),
    }),
    'Microseconds in 16 bit, full every thirteen rows.',
    [expectSensor(s)],
  );
  return cases;
}
