import type { Draw } from './draw.ts';

/** A table before it is joined to text. */
export interface TableLines {
  head: string[];
  /** Names, then units where they have a row of their own. */
  names: string[];
  body: string[];
}

/** What programs and people do to a table beside the measurement: none of it changes what was measured. */
export interface Oddity {
  kind: string;
  /** Spelling of a number, before its decimal mark is. */
  spell: (number: string) => string;
  /** What stands where nothing was measured. */
  missing: string;
  lines: (table: TableLines, delimiter: string) => TableLines;
}

const same = (table: TableLines) => table;
const between = (body: string[], every: number, line: string) =>
  body.flatMap((row, i) => (i > 0 && i % every === 0 ? [line, row] : [row]));

const LINES: [string, number, (draw: Draw) => Oddity['lines']][] = [
  ['sep line', 1.5, () => (table, delimiter) => ({ ...table, head: [`sep=${delimiter}`, ...table.head] })],
  [
    'delimiter at the end of every row',
    1.5,
    () =>
      ({ head, names, body }, delimiter) => ({
        head,
        names: names.map((line) => line + delimiter),
        body: body.map((line) => line + delimiter),
      }),
  ],
  ['blank lines', 1, (draw) => (table) => ({ ...table, body: between(table.body, draw.whole(1, 400), '') })],
  [
    'names again in the middle',
    1,
    () => (table) => ({
      ...table,
      body: between(table.body, Math.ceil(table.body.length * 0.55), table.names[0]),
    }),
  ],
  [
    'remarks between rows',
    1,
    (draw) => (table) => ({
      ...table,
      body: between(table.body, Math.ceil(table.body.length * 0.4), draw.pick(['# marker 3', '# start', '// lap 2'])),
    }),
  ],
  [
    'lines at the end',
    1.5,
    (draw) => (table, delimiter) => ({
      ...table,
      body: [
        ...table.body,
        ...draw.pick([
          ['', 'End of recording'],
          [`Total samples${delimiter}${table.body.length}`],
          ['# end'],
          ['', '', ''],
        ]),
      ],
    }),
  ],
  [
    'rows numbered in a column without a name',
    1.5,
    () =>
      ({ head, names, body }, delimiter) => ({
        head,
        names: names.map((line) => delimiter + line),
        body: body.map((line, i) => `${i}${delimiter}${line}`),
      }),
  ],
  [
    'every line in quotes',
    0.4,
    () =>
      ({ head, names, body }) => ({
        head,
        names: names.map((line) => `"${line.replaceAll('"', '""')}"`),
        body: body.map((line) => `"${line.replaceAll('"', '""')}"`),
      }),
  ],
];

const NUMBERS: [string, number, Oddity['spell']][] = [
  ['exponents', 1, (number) => (/\./.test(number) ? Number(number).toExponential() : number)],
  ['plus signs', 0.7, (number) => (/^\d*\.\d+$/.test(number) ? `+${number}` : number)],
  ['padded with spaces', 1, (number) => number.padStart(12)],
  ['no zero before the point', 0.5, (number) => number.replace(/^(-?)0\./, '$1.')],
];

/** @param quoted cells stand in quotes already */
export function oddityOf(draw: Draw, quoted: boolean, gaps: boolean): Oddity {
  const none: Oddity = { kind: 'none', spell: (number) => number, missing: '', lines: same };
  if (gaps && draw.chance(0.6)) {
    const missing = draw.pick(['NaN', 'nan', 'NA', 'null', 'N/A', '#N/A', '-']);
    return { ...none, kind: `${missing} where nothing was measured`, missing };
  }
  const kind = draw.weighed([
    ['none', 12],
    ['lines', 9],
    ['numbers', 4],
  ] as const);
  if (kind === 'lines') {
    const [name, , make] = draw.weighed(LINES.map((entry) => [entry, entry[1]] as const));
    return name === 'every line in quotes' && quoted ? none : { ...none, kind: name, lines: make(draw) };
  }
  if (kind === 'numbers') {
    const [name, , spell] = draw.weighed(NUMBERS.map((entry) => [entry, entry[1]] as const));
    return { ...none, kind: name, spell };
  }
  return none;
}
