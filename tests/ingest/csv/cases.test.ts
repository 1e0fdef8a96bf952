import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { LayoutQuestion } from '../../../ingest/csv/columns/layout-question.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { FaultError } from '../../../shared/fault.ts';
import { told } from '../../helpers/told.ts';
import { Layout } from '../../../shared/schemas/layout.ts';
import { Check } from 'typebox/value';
import type { Expected, Refused } from './case-tools.ts';

const folder = fileURLToPath(new URL('./cases/', import.meta.url));

function readCase(name: string) {
  const files = readdirSync(folder + name);
  const input = files.find((file) => !file.endsWith('.json'))!;
  const json = (file: string) =>
    files.includes(file) ? JSON.parse(readFileSync(`${folder}${name}/${file}`, 'utf8')) : null;
  return {
    input,
    bytes: readFileSync(`${folder}${name}/${input}`),
    options: json('options.json') ?? {},
    expected: json('expected.json') as Expected | null,
    refused: json('refused.json') as Refused | null,
  };
}

/** The question, its choices and its advice: the same figures in both languages, with the decimal comma in German, no English in the German one, no bare keys. */
function asksInBothLanguages({ fault, choices }: LayoutQuestion): void {
  const [english, german] = [told(fault), told(fault, 'de')];
  const figures = (text: string) => (text.replace(/(\d),(\d)/g, '$1.$2').match(/\d+(?:\.\d+)?/g) ?? []).sort();
  expect(english.message).toContain('found ');
  expect(figures(german.message), `${german.message} / ${english.message}`).toEqual(figures(english.message));
  expect(german.message).not.toMatch(/\b(the|and|of|with|which|that|angular rate|acceleration)\b/);
  expect(german.hint).not.toBe(english.hint);
  for (const { message, hint } of [english, german]) expect(`${message} ${hint}`).not.toMatch(/\b(found|choice|do)_\w/);
  if (choices.length > 0) expect(String(german.where.choices).split(' | ')).toHaveLength(choices.length);
}

const names = readdirSync(folder).sort();

describe('odd files', () => {
  test('there are at least 40 readable shapes and 10 ambiguous ones', () => {
    const cases = names.map(readCase);
    expect(cases.filter((entry) => entry.expected).length).toBeGreaterThanOrEqual(40);
    expect(cases.filter((entry) => entry.refused?.refused.code === 'LAYOUT_AMBIGUOUS').length).toBeGreaterThanOrEqual(
      10,
    );
  });

  for (const name of names) {
    const entry = readCase(name);
    const { input: file_name, bytes, options } = entry;
    if (entry.refused) {
      test(`${name} is refused: ${entry.refused.what}`, async () => {
        const { refused } = entry.refused!;
        const fault = await readCsvRecording(bytes, { file_name, ...options }).then(
          () => null,
          (cause: unknown) => cause,
        );
        expect(fault).toBeInstanceOf(FaultError);
        expect((fault as FaultError).code).toBe(refused.code);
        expect((fault as FaultError).message).toContain(file_name);
        if (refused.about) expect((fault as LayoutQuestion).about).toBe(refused.about);
        if (refused.code === 'LAYOUT_AMBIGUOUS') {
          expect((fault as LayoutQuestion).choices.length).toBeGreaterThanOrEqual(refused.fewest_choices ?? 0);
          asksInBothLanguages(fault as LayoutQuestion);
          // Every answer offered is one that reads the file.
          for (const { correction } of (fault as LayoutQuestion).choices) {
            await readCsvRecording(bytes, {
              file_name,
              ...options,
              layout: { ...(refused.about === 'acceleration unit' ? {} : options.layout), ...correction },
            }).catch((again: FaultError) => {
              expect(again).toBeInstanceOf(LayoutQuestion);
              expect((again as LayoutQuestion).about).not.toBe(refused.about);
            });
          }
        }
      });
      continue;
    }
    const expected = entry.expected!;
    test(`${name} is read: ${expected.what}`, async () => {
      const read = await readCsvRecording(bytes, { file_name, ...options });
      compare(read, expected);
      expect(Check(Layout, read.layout)).toBe(true);
      expect(read.evidence.length).toBeGreaterThan(3);
      // What was found reads the file again, with nothing left to find.
      const again = await readCsvRecording(bytes, { file_name, ...options, layout: read.layout });
      expect(again.recordings).toEqual(read.recordings);
      // So does the same file in pieces of any size.
      const pieces = await readCsvRecording(inPieces(bytes, 997), { file_name, ...options });
      expect(pieces.recordings).toEqual(read.recordings);
      expect(pieces.sha256).toBe(read.sha256);
    });
  }
});

function compare(read: Awaited<ReturnType<typeof readCsvRecording>>, expected: Expected): void {
  expect(read.faults.map((fault) => fault.code).sort()).toEqual([...expected.faults].sort());
  expect(read.rejected_rows.map((row) => row.line)).toEqual(expected.rejected_lines);
  expect(read.layout).toMatchObject(expected.layout);
  expect(read.recordings.map(({ side }) => side)).toEqual(expected.recordings.map(({ side }) => side));
  for (const [index, want] of expected.recordings.entries()) {
    const { samples } = read.recordings[index];
    expect(samples.time_s.length).toBe(want.samples);
    expect(Math.abs(samples.sampling_rate_hz / want.rate_hz - 1)).toBeLessThan(0.005);
    expect(samples.start_utc === null ? null : Date.parse(samples.start_utc)).toBe(
      want.start_utc === null ? null : Date.parse(want.start_utc),
    );
    expect(samples.gaps.map((gap) => gap.lost_samples)).toEqual(want.gaps.map((gap) => gap.lost_samples));
    for (const [at, gap] of want.gaps.entries()) {
      near(samples.gaps[at].start_s, gap.start_s, 1e-3);
      if (gap.lost_samples !== null) near(samples.gaps[at].end_s, gap.end_s, 1e-3);
    }
    for (const row of want.rows) {
      near(samples.time_s[row.row], row.time_s, expected.tolerance.time_s);
      checkAxes(samples.acc_mps2, row.acc_mps2, row.row, expected.tolerance.acc_mps2);
      expect(samples.gyr_radps === null).toBe(row.gyr_radps === null);
      if (samples.gyr_radps && row.gyr_radps)
        checkAxes(samples.gyr_radps, row.gyr_radps, row.row, expected.tolerance.gyr_radps);
    }
  }
}

function checkAxes(
  found: { x: Float64Array; y: Float64Array; z: Float64Array },
  want: (number | null)[],
  row: number,
  tolerance: number,
): void {
  for (const [axis, column] of [found.x, found.y, found.z].entries()) {
    const value = want[axis];
    if (value === null) expect(column[row]).toBeNaN();
    else near(column[row], value, tolerance);
  }
}

function near(found: number, want: number, tolerance: number): void {
  expect(Math.abs(found - want), `${found} against ${want}`).toBeLessThanOrEqual(tolerance);
}

async function* inPieces(bytes: Uint8Array, size: number): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}
