import { readdirSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { RowDecoder } from '../../../ingest/csv/rows/decode-rows.ts';
import type { ColumnPlan } from '../../../ingest/csv/rows/row-batch.ts';
import { RejectedRows } from '../../../ingest/csv/rows/rejected-rows.ts';
import { recordingsFolder } from '../../helpers/recordings.ts';
import { randomStream } from './make-signal.ts';

function plan(columns: number, delimiter: string, decimal_mark: '.' | ','): ColumnPlan {
  return {
    column_count: columns,
    names: [],
    channels: Array.from({ length: Math.min(6, columns - 1) }, (_, index) => index + 1),
    time: { kind: 'number', columns: [0], seconds_per_unit: 1, epoch_s: null, date_order: null, rate_hz: null },
    time_columns: [0],
    side_column: null,
    quantity_column: null,
    quantity_values: new Map(),
    rows_alternate: false,
    acc_channels: [],
    gyr_channels: [],
    side_values: [null],
    rows_of: null,
    text: { encoding: 'utf-8', delimiter, decimal_mark, header_row: false, units_row: false, missing_values: [] },
  };
}

/** Decodes a text twice, straight from the bytes and by papaparse alone, and wants the same rows, bit for bit. */
function compare(text: string, columns: ColumnPlan): number {
  const [short, full] = [false, true].map((papaparseOnly) => {
    const rejected = new RejectedRows('rows.csv');
    const batch = new RowDecoder(columns, rejected, 1, papaparseOnly).decode(Buffer.from(text));
    const kept = (column: Float64Array) => Array.from(column.subarray(0, batch.rows));
    return {
      lines: kept(batch.lines),
      time: kept(batch.time),
      channels: batch.channels.map(kept),
      rejected: rejected.kept,
    };
  });
  expect(short).toEqual(full);
  return short.lines.length;
}

describe('rows straight from the bytes', () => {
  test('are what papaparse and Number() give, bit for bit, over numbers of every form', () => {
    const random = randomStream(5);
    const pick = (texts: string[]) => texts[Math.floor(random() * texts.length)];
    for (const [delimiter, mark] of [
      [',', '.'],
      [';', ','],
      ['\t', '.'],
      ['|', ','],
    ] as const) {
      const number = () => {
        const sign = pick(['', '', '-', '+']);
        const digits = (most: number) => String(Math.floor(random() * 10 ** Math.floor(1 + random() * most)));
        const plain =
          sign +
          pick([
            digits(7),
            `${digits(4)}${mark}${digits(9)}`,
            `${mark}${digits(3)}`,
            `${digits(3)}${mark}`,
            `0${mark}000${digits(6)}`,
          ]);
        const odd = pick([
          `${digits(2)}${mark}5e${pick(['-', '+', ''])}7`,
          '',
          'nan',
          ` ${digits(3)} `,
          '1e400',
          '0x1F',
          'Infinity',
          'abc',
          '--1',
          '1 2',
          `"${digits(3)}"`,
          '12345678901234567890',
        ]);
        return random() < 0.97 ? plain : odd;
      };
      const rows = Array.from({ length: 4000 }, () => {
        const cells = Array.from({ length: 9 }, number);
        if (random() < 0.01) cells.pop();
        if (random() < 0.01) cells.push('');
        return cells.join(delimiter);
      });
      const text = rows.map((row) => row + pick(['\n', '\n', '\r\n', '\r'])).join('');
      expect(compare(text, plan(9, delimiter, mark))).toBeGreaterThan(2000);
    }
  });

  test('are exact to the last bit at fifteen digits', () => {
    const random = randomStream(9);
    const cells = Array.from({ length: 3000 }, () => {
      const digits = String(Math.floor(random() * 1e15)).padStart(15, '0');
      const at = Math.floor(random() * 16);
      return `${digits.slice(0, at)}.${digits.slice(at)}`.replace(/^\./, '0.').slice(0, 16);
    });
    const text = cells.map((cell, index) => `${index},${cell},${cell},${cell}\n`).join('');
    const batch = new RowDecoder(plan(4, ',', '.'), new RejectedRows('rows.csv'), 1).decode(Buffer.from(text));
    expect(batch.rows).toBe(cells.length);
    cells.forEach((cell, row) => {
      if (!Object.is(batch.channels[0][row], Number(cell))) expect.fail(`${cell}: ${batch.channels[0][row]}`);
    });
  });

  const folder = recordingsFolder();
  test.skipIf(folder === null)('are what papaparse gives on real recordings', () => {
    for (const name of ['shoe-jog-loops', 'ankle-treadmill-jog', 'treadmill-run-davis']) {
      const file = readdirSync(`${folder}/${name}`).find((entry) => entry.endsWith('.csv.gz'))!;
      const text = gunzipSync(readFileSync(`${folder}/${name}/${file}`)).toString();
      const [header, ...rows] = text.split('\n');
      expect(compare(rows.join('\n'), plan(header.split(',').length, ',', '.'))).toBe(rows.length - 1);
    }
  });
});
