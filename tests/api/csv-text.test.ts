import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { csvParts } from '../../api/export/tables/write-csv.ts';
import type { ExportTable } from '../../api/export/tables/column.ts';
import { csvText, harmlessText } from '../../api/csv-text.ts';

/** Beginnings that spreadsheets run. Source: OWASP, 'CSV injection' (from memory). */
const RUN = [
  '=1+1',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  '+cmd',
  '-cmd',
  "-2+3+cmd|' /C calc'!A0",
  '+1-555',
  '- left',
  '＝1',
  '-(1)',
];
const PLAIN = ['', '-', '+', '-0.5', '+12', '-1e-3', '-1,5', '-.5', '1=1', 'a@b', 'left', ' =x', '-12.5E+4'];

describe('cells of CSV files', () => {
  it('that a spreadsheet would run get an apostrophe; numbers and other texts stay as they are', () => {
    for (const text of RUN) expect(harmlessText(text)).toBe(`'${text}`);
    for (const text of PLAIN) expect(harmlessText(text)).toBe(text);
  });

  it('are neutral by both writers, and come back as they were but for the apostrophe', () => {
    const rows = [...RUN, ...PLAIN].map((text) => [text, 'x']);
    const expected = rows.map(([text]) => harmlessText(text));
    const table = {
      columns: [
        { name: 'note', type: 'string' },
        { name: 'x', type: 'string' },
      ],
      batches: () => [
        {
          rows: rows.length,
          values: new Map([
            ['note', rows.map(([text]) => text)],
            ['x', rows.map(() => 'x')],
          ]),
        },
      ],
    } as unknown as ExportTable;
    for (const text of [csvText({ fields: ['note', 'x'], data: rows }), [...csvParts(table)].join('')]) {
      const read = Papa.parse<string[]>(text.trimEnd(), { newline: '\n', delimiter: ',' }).data;
      expect(read.slice(1).map(([note]) => note)).toEqual(expected);
    }
  });
});
