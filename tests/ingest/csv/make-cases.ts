/** Writes every odd file with its expectation into cases/. Run it after a change of the lists: `npx tsx tests/ingest/csv/make-cases.ts`. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { goodCases } from './list-good-cases.ts';
import { laboratoryCases } from './list-laboratory-cases.ts';
import { refusedCases } from './list-refused-cases.ts';
import { shapeCases } from './list-shape-cases.ts';
import { strangerCases } from './list-stranger-cases.ts';
import { unseenCases } from './list-unseen-cases.ts';
import { workbookCases } from './list-workbook-cases.ts';
import { wovenCases } from './list-woven-cases.ts';

const folder = fileURLToPath(new URL('./cases/', import.meta.url));
rmSync(folder, { recursive: true, force: true });
for (const entry of [
  ...goodCases(),
  ...wovenCases(),
  ...unseenCases(),
  ...strangerCases(),
  ...refusedCases(),
  ...shapeCases(),
  ...workbookCases(),
  ...laboratoryCases(),
]) {
  const home = `${folder}${entry.name}/`;
  mkdirSync(home, { recursive: true });
  writeFileSync(`${home}${entry.file_name}`, entry.bytes);
  if (entry.options) writeFileSync(`${home}options.json`, `${JSON.stringify(entry.options, null, 1)}\n`);
  const name = 'refused' in entry.expected ? 'refused.json' : 'expected.json';
  writeFileSync(`${home}${name}`, `${JSON.stringify(entry.expected, roundNumbers, 1)}\n`);
}

/** Seven significant digits are far below every tolerance and keep the files small. */
function roundNumbers(key: string, value: unknown): unknown {
  return key !== 'seconds_per_unit' && typeof value === 'number' && !Number.isInteger(value)
    ? Number(value.toPrecision(10))
    : value;
}
