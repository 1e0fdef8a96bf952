import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Layout, LayoutCorrection } from '../../shared/schemas/layout.ts';
import type { LayoutPreview, ReadingCheck } from '../../shared/schemas/layout-preview.ts';
import { writeWorkbook } from '../ingest/csv/write-workbook.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { postForm, openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
let place: { athlete_id: number; session_id: number };
beforeAll(async () => {
  api = await openTestApi();
  place = await api.athleteAndSession();
});
afterAll(() => api.close());

async function preview(
  file: string | Uint8Array,
  fields: { layout?: Layout | LayoutCorrection; part?: boolean; rate?: string } = {},
  name = 'left.csv',
  language = 'en',
): Promise<LayoutPreview> {
  const form = new FormData();
  for (const [field, value] of Object.entries(fields)) {
    form.set(field, typeof value === 'object' ? JSON.stringify(value) : String(value));
  }
  form.set('file', new Blob([file as BlobPart]), name);
  const answer = await postForm(api.app, '/api/layouts/preview', form, language);
  expect(answer.statusCode, answer.body).toBe(200);
  return answer.json();
}

const checkOf = (shown: LayoutPreview, about: string): ReadingCheck | undefined =>
  shown.sensors[0].checks.find((check) => check.about === about);
/** The table of a sprint with its cells changed. */
const changed = (change: (cells: string[], row: number) => string[], file = sprintFiles().left) =>
  `${file
    .trim()
    .split('\n')
    .map((line, row) => change(line.split(','), row).join(','))
    .join('\n')}\n`;

describe('a preview of a file', () => {
  it('shows its lines, its columns, what they are taken for and that it looks like running', async () => {
    const shown = await preview(sprintFiles().left);
    expect(shown.fault).toBeNull();
    expect(shown.lines.slice(0, 2).map(({ line, role }) => [line, role])).toEqual([
      [1, 'names'],
      [2, 'row'],
    ]);
    expect(shown.columns.map(({ name }) => name)).toEqual(sprintFiles().left.split('\n')[0].split(','));
    expect(shown.columns[1]).toMatchObject({ kind: 'acc', axis: 'x', unit: 'g' });
    expect(shown.layout!.sensors[0]).toMatchObject({ side: 'left', acc: { columns: [1, 2, 3], unit: 'g' } });
    expect(shown.evidence.map(({ about }) => about)).toEqual(expect.arrayContaining(['time', 'delimiter', 'side']));
    // The generator stands for two seconds, at 500 Hz.
    expect(checkOf(shown, 'rate')!.found).toMatch(/^500 samples/);
    expect(checkOf(shown, 'at rest')!.verdict).toBe('plausible');
    expect(Number.parseFloat(String(checkOf(shown, 'at rest')!.found))).toBeCloseTo(1, 1);
    expect(checkOf(shown, 'running')!.found).toMatch(/^\d+ contacts/);
    expect(shown.sensors[0].checks.map(({ verdict }) => verdict)).not.toContain('impossible');
    expect(shown.sensors[0].acc_mps2).toHaveLength(300);
    expect((api.store.prepare('SELECT count(*) AS n FROM raw_files').get() as { n: number }).n).toBe(0);
  });

  it('says what was understood, and what it looks like, in the language of who asks', async () => {
    const { left } = sprintFiles();
    const [english, german] = [await preview(left), await preview(left, {}, 'left.csv', 'de')];
    const understood = ({ evidence }: LayoutPreview, about: string) => {
      const { decided, because } = evidence.find((item) => item.about === about)!;
      return [decided, because];
    };
    expect(understood(english, 'delimiter')).toEqual(['comma', 'splits the rows into 7 columns of numbers throughout']);
    expect(understood(german, 'delimiter')).toEqual(['Komma', 'teilt die Zeilen durchgehend in 7 Spalten von Zahlen']);
    expect(understood(german, 'side')).toEqual(['links', 'der Name der Datei „left.csv“']);
    expect(checkOf(german, 'rate')!.found).toMatch(/^500 Messwerte je Sekunde über \d+,\d s/);
    // Whatever is said in words differs; a unit or a rate may be the same.
    const same = german.evidence.filter(({ because }, i) => because === english.evidence[i].because);
    expect(same).toEqual([]);
  });

  it('of a workbook shows its first sheet, whole or as its beginning, and the import measures the same contacts as the table', async () => {
    const book = (text: string) =>
      writeWorkbook(
        text
          .trim()
          .split('\n')
          .map((line, row) => line.split(',').map((cell) => (row === 0 ? cell : Number(cell)))),
      );
    const { left, right } = sprintFiles();
    for (const part of [false, true]) {
      const shown = await preview(book(left), { part }, 'left.xlsx');
      expect(shown.fault).toBeNull();
      expect(shown.columns.map(({ name }) => name)).toEqual(left.split('\n')[0].split(','));
    }
    const contactsOf = async (files: { left: string | Uint8Array; right: string | Uint8Array }) => {
      const { body } = await api.import({ ...place, mounting: 'foot', effort_percent: 100 }, files);
      expect(body.fault).toBeNull();
      const { body: steps } = await api.call('GET', `/repetitions/${body.repetition_ids[0]}/steps.csv`);
      return steps;
    };
    expect(await contactsOf({ left: book(left), right: book(right) })).toBe(await contactsOf({ left, right }));
  });

  it('of the beginning of a large file, or of a packed one, says nothing about where it was cut', async () => {
    const whole = Buffer.from(sprintFiles().left);
    for (const bytes of [whole.subarray(0, whole.length - 7), gzipSync(whole).subarray(0, 60_000)]) {
      const shown = await preview(bytes, { part: true });
      expect(shown).toMatchObject({ fault: null, faults: [] });
      expect(shown.rows).toBeGreaterThan(1000);
    }
  });

  it('shows at once what a wrong unit or column does', async () => {
    const { layout } = await preview(sprintFiles().left);
    const [sensor] = layout!.sensors;
    const wrongUnit = { ...sensor, acc: { ...sensor.acc, unit: 'mg', to_si: 0.00980665 } };
    const shown = await preview(sprintFiles().left, { layout: { ...layout!, sensors: [wrongUnit] } });
    expect(checkOf(shown, 'at rest')).toMatchObject({ verdict: 'impossible' });
    expect(checkOf(shown, 'hardest shake')!.verdict).toBe('doubtful');
  });

  it('names the axis that is turned round, and turning it makes the doubt go', async () => {
    const mirrored = changed((cells, row) => (row > 0 ? [...cells.slice(0, 6), String(-Number(cells[6]))] : cells));
    const shown = await preview(mirrored);
    expect(checkOf(shown, 'axes')).toMatchObject({ verdict: 'doubtful', turn: ['z'] });
    const [sensor] = shown.layout!.sensors;
    const turned = { ...sensor, gyr: { ...sensor.gyr!, signs: [1, 1, -1] as [number, number, number] } };
    const mended = await preview(mirrored, { layout: { ...shown.layout!, sensors: [turned] } });
    expect(checkOf(mended, 'axes')).toBeUndefined();
  });

  it('of a file that does not tell carries the readings to choose from, and shows its columns all the same', async () => {
    const counts = changed((cells, row) =>
      row === 0
        ? ['t_ms', 'ax', 'ay', 'az']
        : [String(row * 2), ...cells.slice(1, 4).map((g) => (2900 * Number(g)).toFixed(0))],
    );
    const shown = await preview(counts, {}, 'counts.csv');
    expect(shown.layout).toBeNull();
    expect(shown.fault!.code).toBe('LAYOUT_AMBIGUOUS');
    expect(shown.columns).toHaveLength(4);
    const chosen = await preview(counts, { layout: shown.choices[0].correction }, 'counts.csv');
    expect(chosen.layout).not.toBeNull();
  });

  it('of what is no text is refused', async () => {
    const form = new FormData();
    form.set('file', new Blob([Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0])]), 'picture.png');
    const answer = await postForm(api.app, '/api/layouts/preview', form);
    expect(answer.json().code).toBe('FILE_NOT_TEXT');
  });
});

describe('a corrected layout', () => {
  it('with names of figures and a first row that were told reads the next file of that shape too', async () => {
    // Names that are figures look like a row; a table of settings above looks like the table.
    const numbered = (seed: number) =>
      changed((cells, row) => (row === 0 ? ['10', '20', '30', '40', '50', '60', '70'] : cells), sprintFiles(seed).left);
    const text = { header_row: true, rows_from_line: 2 };
    const shown = await preview(numbered(7), { layout: { text } });
    expect(shown.columns.map(({ name }) => name)).toEqual(['10', '20', '30', '40', '50', '60', '70']);
    expect(shown.lines.slice(0, 2).map(({ role }) => role)).toEqual(['names', 'row']);
    const acc = { columns: [1, 2, 3], signs: [1, 1, 1], unit: 'g', to_si: 9.80665 };
    const gyr = { columns: [4, 5, 6], signs: [1, 1, 1], unit: 'deg/s', to_si: Math.PI / 180 };
    const told = {
      text,
      time: { kind: 'number', columns: [0], seconds_per_unit: 1 },
      sensors: [{ side: 'left', side_value: null, acc, gyr }],
      side_column: null,
      counter: null,
    } as unknown as LayoutCorrection;
    const { layout } = await preview(numbered(7), { layout: told });
    const saved = await api.call('POST', '/layouts', { name: 'figures as names', layout });
    expect(saved.status).toBe(201);
    const next = await preview(numbered(8));
    expect(next).toMatchObject({ saved_layout: 'figures as names', fault: null });
    expect(checkOf(next, 'running')!.verdict).toBe('plausible');
    // A file with other names is not touched by it.
    expect((await preview(sprintFiles(8).left)).saved_layout).toBeNull();
  });

  it('that was kept last is the one that is used', async () => {
    const { layout } = await preview(sprintFiles().left);
    await api.call('POST', '/layouts', { name: 'b, first', layout });
    await new Promise((later) => setTimeout(later, 5));
    await api.call('POST', '/layouts', { name: 'c, second', layout });
    expect((await preview(sprintFiles(8).left)).saved_layout).toBe('c, second');
  });

  it('may differ between left and right', async () => {
    const { left, right } = sprintFiles(9);
    const plain = changed((cells, row) => (row === 0 ? ['t', ...'abcdef'] : cells), right);
    const acc = { columns: [1, 2, 3], signs: [1, 1, 1], unit: 'g', to_si: 9.80665 };
    const gyr = { columns: [4, 5, 6], signs: [1, 1, 1], unit: 'deg/s', to_si: Math.PI / 180 };
    const layout_right = JSON.stringify({ sensors: [{ side: 'right', side_value: null, acc, gyr }] });
    const { body } = await api.import({ ...place, mounting: 'foot', layout_right }, { left, right: plain });
    expect(body.fault).toBeNull();
    const { body: repetition } = await api.call('GET', `/repetitions/${body.repetition_ids[0]}`);
    expect(repetition.recordings.map(({ side }: { side: string }) => side)).toEqual(['left', 'right']);
  });
});
