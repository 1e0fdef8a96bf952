import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Case, caseList, expectSensor, PLAIN, SIX, sixAxes } from './case-tools.ts';
import { type KnownRecording, makeSignal } from './make-signal.ts';
import { type Cell, type WorkbookOptions, writeWorkbook } from './write-workbook.ts';

const START = '2026-11-25T14:03:22.000Z';
/** Days of a sheet: 25569 is 1970-01-01, 24107 in sheets that count from 1904 (ECMA-376 part 1, 18.17.4). */
const DAY = Date.parse(START) / 86_400_000;

/** Workbooks of sheets (.xlsx): of our own making, and two that Debian's python3-openpyxl 3.0.9 and python3-xlsxwriter 3.0.2 wrote. */
export function workbookCases(): Case[] {
  const { cases, read, refuse } = caseList({ time_s: 2e-6, acc_mps2: 1e-7, gyr_radps: 1e-7 }, 'input.xlsx');
  let seed = 2600;
  const signal = () => makeSignal(seed++);

  /** Time, then the six channels with every digit of a double. */
  const rows = (s: KnownRecording, time: (row: number) => Cell): Cell[][] =>
    s.time_s.map((_, row) => [time(row), ...s.acc[row], ...s.gyr[row]]);
  const book = (s: KnownRecording, options: WorkbookOptions = {}, time = (row: number): Cell => s.time_s[row]) =>
    writeWorkbook([['time_s', ...SIX], ...rows(s, time)], options);

  let s = signal();
  read('workbook', book(s), 'A workbook with one sheet; numbers keep every digit.', [expectSensor(s)]);

  s = signal();
  read(
    'workbook-of-bare-cells',
    book(s, { inline: true, placeless: true, prefix: 'x:' }),
    'Cells without a place, texts inside them, elements with a prefix.',
    [expectSensor(s)],
  );

  for (const [name, date1904] of [
    ['workbook-with-dates', false],
    ['workbook-with-dates-from-1904', true],
  ] as const) {
    s = signal();
    const zero = date1904 ? 24_107 : 25_569;
    const stamps = (row: number): Cell => ({
      serial: zero + DAY + s.time_s[row] / 86_400,
      format: 'dd/mm/yyyy\\ hh:mm:ss.000',
    });
    read(
      name,
      writeWorkbook([['timestamp', ...SIX], ...rows(s, stamps)], { date1904 }),
      'Days with fractions that a format shows as dates.',
      [expectSensor(s, { start_utc: START })],
    );
  }

  s = signal();
  const clock = (row: number): Cell => ({ serial: (50_602 + s.time_s[row]) / 86_400, format: '[$-409]h:mm:ss.000' });
  read(
    'workbook-with-times-of-day',
    writeWorkbook([['time', ...SIX], ...rows(s, clock)]),
    'Fractions of a day that a format shows as a time of day.',
    [expectSensor(s)],
  );

  s = signal();
  const notes: Cell[][] = [['Sensor', 'left foot'], ['Rate', '200 Hz'], []];
  read(
    'workbook-with-notes-above',
    writeWorkbook([
      ...notes,
      ['time', ...PLAIN.slice(1).map((name) => name.replace(/_(mps2|radps)$/, ''))],
      ['s', ...Array<string>(3).fill('m/s2'), ...Array<string>(3).fill('rad/s')],
      ...rows(s, (row) => s.time_s[row]),
    ]),
    'Notes, names and units above the rows.',
    [expectSensor(s, { side: 'left' })],
  );

  s = signal();
  const comma = sixAxes(s, (row) => String(s.time_s[row]), { per_si: 1, decimals: 12 }, { per_si: 1, decimals: 12 });
  read(
    'workbook-with-numbers-as-text',
    writeWorkbook([
      ['time_s', ...SIX],
      ...comma.map(([t, ...cells]) => [Number(t), ...cells.map((cell) => cell.replace('.', ','))]),
    ]),
    'Values kept as text with decimal commas beside numbers.',
    [expectSensor(s)],
  );

  s = signal();
  read(
    'workbook-with-more-sheets',
    book(s, { sheets: ['left foot', 'right foot', 'Notes & more'] }),
    'Several sheets: the first is read, the others are told.',
    [expectSensor(s)],
    { faults: ['SHEETS_NOT_READ'] },
  );

  for (const maker of ['openpyxl', 'xlsxwriter'])
    read(
      `workbook-by-${maker}`,
      readFileSync(fileURLToPath(new URL(`./workbooks/${maker}.xlsx`, import.meta.url))),
      `A workbook that ${maker} wrote of a signal of this project.`,
      [expectSensor(makeSignal(2699))],
    );

  s = signal();
  refuse(
    'workbook-with-notes-first',
    writeWorkbook(
      [
        ['Device', 'of our own'],
        ['Rate', 200],
      ],
      { sheets: ['About', 'Data'] },
    ),
    'A first sheet without a table: the others are named.',
    { code: 'NOT_A_RECORDING' },
  );
  refuse('workbook-broken', book(s).subarray(0, 9000), 'A workbook that breaks off.', { code: 'WORKBOOK_UNREADABLE' });
  const archive = Buffer.from(book(s).toString('latin1').replaceAll('xl/', 'a/x'), 'latin1');
  refuse('zip-archive', archive, 'A zip file that is no workbook.', { code: 'FILE_NOT_TEXT' });
  return cases;
}
