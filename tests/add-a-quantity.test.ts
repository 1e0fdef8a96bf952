/**
 * Follows the recipe 'Add a quantity' of DEVELOPERS.md, block by block, on a copy of the sources, and looks for the new
 * quantity everywhere that a quantity must arrive.
 */
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Store } from '../api/store/store.ts';
import { CONTACT_QUANTITIES } from '../shared/fields.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const NAME = 'flight_share';

interface Block {
  way: 'file' | 'into';
  path: string;
  text: string;
}

function recipeBlocks(): Block[] {
  const text = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
  const recipe = text.slice(text.indexOf('### Add a quantity')).split(/^#{2,3} /m)[1];
  return [...recipe.matchAll(/^( *)```ts (file|into)=(\S+)\n([\s\S]*?)^ *```/gm)].map(
    ([, indent, way, path, body]) => ({
      way: way as Block['way'],
      path,
      text: body.replaceAll(new RegExp(`^${indent}`, 'gm'), ''),
    }),
  );
}

/** Puts a block at the end of the dictionary or list that the file exports. */
function insert(source: string, text: string, own: Block[]): string {
  const dictionary = source.includes('} as const satisfies') ? /\} as const satisfies/ : /^\};/m;
  const isList = /^\];/m.test(source);
  const end = isList ? /^\];/m : dictionary;
  const imports = own.map(({ path, text: body }) => {
    const name = /export function (\w+)/.exec(body)![1];
    return `import { ${name} } from './${path.split('/').at(-1)}';\n`;
  });
  return `${isList ? imports.join('') : ''}${source.replace(end, (found) => `${text}${found}`)}`;
}

/** What the copy says of the quantity, printed by a program that runs in it. */
const ASK = `
import { analyse } from './dsp/analyse.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from './shared/analysis.ts';
import { ContactSchema } from './shared/schemas/contact.ts';
import { FURTHER_QUANTITIES, STEPS_CSV_COLUMNS } from './shared/fields.ts';
import { generateRepetition } from './seeds/generate-repetition.ts';
import { stepsCsv } from './api/measuring/steps-csv.ts';
import { contactColumns } from './api/export/tables/contact-columns.ts';
import { repetitionValues } from './api/store/repetition-values.ts';
import { insertAnalysis, listContacts } from './api/store/analyses.ts';
import { Store } from './api/store/store.ts';
import { quantityDefinition } from './shared/coach-quantities.ts';
import { QUANTITIES_DE } from './shared/messages/de/quantities.ts';

const { sensors } = generateRepetition({ seed: 5, sensor: { rate_hz: 500 }, repetitions: [{ effort: 1, distance_m: 30 }] });
const own = { mounting: 'foot', clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 };
const analysis = analyse({
  sensors: ['left', 'right'].map((side) => ({ ...own, side, samples: sensors.foot[side] })),
  course: UNKNOWN_COURSE,
  conditions: UNKNOWN_CONDITIONS,
});
const [result] = analysis.repetitions;
const store = Store.open(process.argv[2]);
store.database.exec("INSERT INTO athletes (name, created_utc, updated_utc) VALUES ('A', '', '')");
store.database.exec("INSERT INTO sessions (session_date, created_utc, updated_utc) VALUES ('2026-01-02', '', '')");
store.database.exec("INSERT INTO repetitions (session_id, athlete_id, order_number, created_utc, updated_utc) VALUES (1, 1, 1, '', '')");
const provenance = { version: '', method: '', settings: {}, settings_sha256: '', raw_sha256: [], filters: [] };
const id = insertAnalysis(store, { repetition_id: 1, result, quality: [], faults: [], provenance });
const columns = store.prepare("SELECT name FROM pragma_table_info('contacts')").all().map(({ name }) => name);
console.log(JSON.stringify({
  measured: result.contacts[4].flight_share,
  u: result.contacts[4].flight_share_u,
  expected: result.contacts[4].flight_time_ms / result.contacts[4].step_time_ms,
  unmeasured: result.contacts.at(-1).flight_share,
  reason: result.contacts.at(-1).reasons.flight_share,
  stored: listContacts(store, id)[4].flight_share,
  columns,
  header: stepsCsv(result.contacts).split('\\n')[0].split(','),
  csv_columns: STEPS_CSV_COLUMNS,
  schema: ContactSchema.properties.flight_share,
  dictionary: contactColumns(undefined).filter(({ name }) => name.startsWith('flight_share')),
  all: result.summary.all.flight_share,
  at_speed: result.summary.at_speed.flight_share,
  value: repetitionValues(result).find(({ quantity }) => quantity === 'flight_share'),
  shown: FURTHER_QUANTITIES.includes('flight_share'),
  label: quantityDefinition('flight_share')?.label,
  german: QUANTITIES_DE[quantityDefinition('flight_share')?.label],
}));
`;

describe('the recipe for a new quantity', () => {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-recipe-'));
  const blocks = recipeBlocks();
  // biome-ignore lint/suspicious/noExplicitAny: what the program prints
  let said: any;

  beforeAll(() => {
    for (const part of ['shared', 'dsp', 'ingest', 'api', 'seeds', 'package.json', 'tsconfig.json']) {
      cpSync(join(ROOT, part), join(folder, part), { recursive: true });
    }
    symlinkSync(join(ROOT, 'node_modules'), join(folder, 'node_modules'));
    // A database of the version before.
    const database = join(folder, 'before.sqlite');
    Store.open(database).close();
    const own = blocks.filter(({ way }) => way === 'file');
    for (const { way, path, text } of blocks) {
      const target = join(folder, path);
      if (way === 'file') {
        mkdirSync(join(target, '..'), { recursive: true });
        writeFileSync(target, text);
      } else writeFileSync(target, insert(readFileSync(target, 'utf8'), text, own));
    }
    writeFileSync(join(folder, 'ask.ts'), ASK);
    const tsx = join(ROOT, 'node_modules/tsx/dist/cli.mjs');
    said = JSON.parse(execFileSync(process.execPath, [tsx, 'ask.ts', database], { cwd: folder, encoding: 'utf8' }));
  }, 300_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test('touches a file of its own, the dictionary, the list and its German name, and nothing else', () => {
    expect(blocks.map(({ way, path }) => `${way} ${path}`)).toEqual([
      'into shared/fields/added.ts',
      'file dsp/strides/flight-share.ts',
      'into dsp/strides/quantities.ts',
      'into shared/messages/de/quantities.ts',
    ]);
  });

  test('is measured with its uncertainty, or empty with a reason', () => {
    expect(said.measured).toBe(said.expected);
    expect(said.u).toBeGreaterThan(0);
    expect(said).toMatchObject({ unmeasured: null, reason: { because: 'no_next_contact_of_other_foot' } });
  });

  test('is stored in columns of its own, also in a database made before', () => {
    expect(said.columns).toEqual(expect.arrayContaining([NAME, `${NAME}_u`]));
    expect(said.stored).toBe(said.measured);
  });

  test('is last in steps.csv, and described in the data dictionary and the schema', () => {
    expect(said.header.slice(-3)).toEqual([NAME, `${NAME}_u`, `${NAME}_reason`]);
    expect(said.header).toEqual(said.csv_columns);
    expect(said.dictionary).toMatchObject([
      { name: NAME, type: 'number', definition: 'Flight time / step time.' },
      { name: `${NAME}_u`, minimum: 0 },
    ]);
    expect(said.schema.anyOf[0].description).toContain('Flight time / step time.');
  });

  test('is averaged, judged by the coach’s part and shown on request', () => {
    expect(said.all.n).toBeGreaterThan(10);
    expect(said.value.value).toBe(said.at_speed.mean);
    expect(said).toMatchObject({
      shown: true,
      label: 'flight share',
      german: ['Flugzeitanteil', 'Flugzeit / Schrittdauer.'],
    });
  });

  test('passes the type checker without any other change', () => {
    const config = { extends: './tsconfig.json', include: ['shared', 'dsp'] };
    writeFileSync(join(folder, 'tsconfig.copy.json'), JSON.stringify(config));
    const tsc = join(ROOT, 'node_modules/typescript/bin/tsc');
    const check = () =>
      execFileSync(process.execPath, [tsc, '-p', 'tsconfig.copy.json'], { cwd: folder, encoding: 'utf8' });
    expect(check()).toBe('');
  }, 300_000);

  test('the copy began without it', () => {
    expect(CONTACT_QUANTITIES).not.toContain(NAME);
  });
});
