/**
 * No regular expression takes more than linear time in the length of what it is given: a short hostile file or request would hold the
 * server. Judged by recheck, an analyser of regular expressions by their automata (npm package recheck).
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { checkSync } from 'recheck';
import { describe, expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
/** A literal after what cannot end a value; those without repetition are linear. */
const LITERAL = /(?<![\w)\]"'`*/<])\/(?![*/ ])((?:[^/\\\n[]|\\.|\[(?:[^\]\\\n]|\\.)*\])+)\/([dgimsuvy]*)/g;

function sources(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return entry.name === 'dist' ? [] : sources(path);
    return /\.tsx?$/.test(entry.name) ? [path] : [];
  });
}

function expressionsIn(text: string): { source: string; flags: string; line: number }[] {
  return [...text.matchAll(LITERAL)]
    .map((match) => ({ source: match[1], flags: match[2], line: text.slice(0, match.index).split('\n').length }))
    .filter(({ source }) => /[*+{]/.test(source));
}

function isSlow({ source, flags }: { source: string; flags: string }): boolean {
  return checkSync(source, flags.replace(/[dv]/g, ''), { checker: 'automaton', timeout: 5000 }).status === 'vulnerable';
}

describe('regular expressions', () => {
  test('of what the product is fed are linear', () => {
    const found = ['api', 'ingest', 'shared', 'dsp', 'web']
      .flatMap(sources)
      .flatMap((file) =>
        expressionsIn(readFileSync(join(ROOT, file), 'utf8')).map((expression) => ({ file, ...expression })),
      );
    expect(found.length).toBeGreaterThan(90);
    expect(found.filter(isSlow).map(({ file, line, source }) => `${file}:${line} /${source}/`)).toEqual([]);
  });

  test('that are quadratic would be found', () => {
    const [expression] = expressionsIn('const match = /^\\s*([0-9]*\\.?[0-9]+)\\s*(m|yd)\\s*$/.exec(text);');
    expect(isSlow(expression)).toBe(true);
  });
});
