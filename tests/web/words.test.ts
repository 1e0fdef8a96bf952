/** No page says anything of its own: every word that a person reads stands in the catalogue, where each language has it. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { wordsInView } from '../helpers/words-in-view.ts';

const WEB = fileURLToPath(new URL('../../web', import.meta.url));

test('no word for people stands in a page itself', () => {
  const files = readdirSync(WEB, { recursive: true, encoding: 'utf8' }).filter(
    (path) => /\.tsx?$/.test(path) && !/^(dist|shell\/offline)\/|vite\.config|^(archive-)?routes\.ts/.test(path),
  );
  expect(files.length).toBeGreaterThan(150);
  const words = files.flatMap((path) =>
    wordsInView(path, readFileSync(join(WEB, path), 'utf8')).map((text) => `${path}:${text}`),
  );
  expect(words.filter((line) => !AS_THEY_ARE.some((allowed) => line.endsWith(allowed)))).toEqual([]);
});

test('words would be found: as text, in an attribute, as an argument, in a template', () => {
  const found = wordsInView(
    'page.tsx',
    `export const Page = ({ n, name }) => (
      <section aria-label="Of today" class="not for people" title={\`Runs of \${name}\`}>
        <p>Hello</p>
        <p>{t('a_key')} <code>npm ci</code> {n === 'none' ? 'Nothing yet' : n}</p>
        <button onClick={() => offerUndo(\`Run \${n} deleted\`)}>{common('delete')}</button>
      </section>
    );`,
  );
  expect(found).toEqual(['2: Of today', '2: Runs of …', '3: Hello', '4: Nothing yet', '5: Run … deleted']);
});

/**
 * Names and abbreviations that are the same in every language, and values of the program that look like words. Titles of routes are
 * keys of the catalogue by their type.
 */
const AS_THEY_ARE = [
  ': Cinderlane',
  ': API',
  ': PDF',
  ': Motion-BIDS',
  ': English',
  ': Deutsch',
  ': ApiFault',
  ': VideoFrame',
  ': ms',
  ': kg',
  ': lb',
  ': yd',
  ': no fixed direction',
  ': usable with wider uncertainty',
  ': not measurable',
  ': is-beyond is-wanted',
  ': is-beyond is-unwanted',
  '; path=/; max-age=…; samesite=strict',
];
