import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { FAULT_CODES } from '../shared/fault-codes.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** Sources of the product, without what the view's build writes. */
const sources = ['shared', 'ingest', 'dsp', 'api', 'web', 'seeds']
  .flatMap((folder) =>
    readdirSync(`${ROOT}/${folder}`, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !entry.parentPath.includes('/dist'))
      .map((entry) => `${entry.parentPath}/${entry.name}`),
  )
  .filter((path) => !path.endsWith('fault-codes.ts') && !path.includes('/shared/messages/'))
  .map((path) => ({ path: path.slice(ROOT.length), text: readFileSync(path, 'utf8') }));

describe('fault codes', () => {
  it('used anywhere are in the table', () => {
    // A fault carries `where`; other things with a code (cautions, warnings of a plan) do not.
    const missing = sources.flatMap(({ path, text }) =>
      [...text.matchAll(/\bcode: '([A-Z][A-Z0-9_]+)',(?:(?!\bcode:)[\s\S])*?\bwhere[:,]/g)]
        .map((match) => match[1])
        .filter((code) => !(code in FAULT_CODES))
        .map((code) => `${code} in ${path}`),
    );
    expect(missing).toEqual([]);
  });

  it('in the table are used somewhere', () => {
    const all = sources.map(({ text }) => text).join('\n');
    const used = (code: string) => new RegExp(`['\`]${code}['.]`).test(all);
    expect(Object.keys(FAULT_CODES).filter((code) => !used(code))).toEqual([]);
  });

  it('each have a meaning in one line', () => {
    for (const [code, meaning] of Object.entries(FAULT_CODES)) {
      expect(code).toMatch(/^[A-Z][A-Z0-9_]+$/);
      expect(meaning).toMatch(/^[A-Z].{8,140}\.$/);
    }
  });
});
