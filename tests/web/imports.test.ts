import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const WEB = fileURLToPath(new URL('../../web', import.meta.url));

/** Import statements of a source, types included, as one line each. */
function importsOf(source: string): string[] {
  return [...source.matchAll(/^import [^;]*? from '[^']+';/gms)].map(([text]) => text.replace(/\s+/g, ' '));
}

test('the view takes types from the schemas and no value: the schema library would be sent to every phone', () => {
  const sources = readdirSync(WEB, { recursive: true, encoding: 'utf8' }).filter(
    (path) => /\.tsx?$/.test(path) && !path.startsWith('dist'),
  );
  expect(sources.length).toBeGreaterThan(50);
  const values = sources.flatMap((path) =>
    importsOf(readFileSync(join(WEB, path), 'utf8'))
      .filter((text) => text.includes('shared/schemas/') && !text.startsWith('import type '))
      .map((text) => `${path}: ${text}`),
  );
  expect(values).toEqual([]);
});
