/**
 * Who may import whom (see 'The house' in DEVELOPERS.md), and what the pure parts must not touch. Reads the sources as
 * text, so that a new file is under the rules from its first line.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const PARTS = ['shared', 'ingest', 'dsp', 'api', 'web', 'seeds', 'tests'] as const;
type Part = (typeof PARTS)[number];

interface Rule {
  /** Parts of the house that may be imported beside the part itself. */
  parts: Part[];
  /** Packages; null: any. `node:` stands for all of Node's own modules. */
  packages: string[] | null;
}

const RULES: Record<Exclude<Part, 'tests'>, Rule> = {
  shared: { parts: [], packages: ['typebox'] },
  ingest: { parts: ['shared'], packages: ['node:', 'papaparse', 'node-ble', 'dbus-next', 'ajv', 'typebox'] },
  dsp: { parts: ['shared'], packages: ['fili', 'fft.js', 'simple-statistics'] },
  // seeds fills an empty database on the first start of the server.
  api: { parts: ['shared', 'ingest', 'dsp', 'seeds'], packages: null },
  web: { parts: ['shared'], packages: ['node:url', 'preact', '@preact/signals', 'uplot', 'vite', 'typebox'] },
  seeds: { parts: ['shared'], packages: ['node:'] },
};

/** Anything whose answer depends on when, where or how often the code runs. */
const IMPURE = [
  // `Date.UTC` counts days of a given calendar; it asks no clock.
  /\bDate\b(?!\.UTC\()/,
  /\bMath\.random\b/,
  /\bperformance\b/,
  /\bprocess\b/,
  /\bconsole\b/,
  /\bfetch\b/,
  /\bsetTimeout\b/,
  /\bcrypto\b/,
  /\bglobalThis\b/,
];

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'dist' || entry.name === 'node_modules' ? [] : sources(path);
    return /\.tsx?$/.test(entry.name) ? [path] : [];
  });
}

/** The source without comments and without the contents of strings: words in a sentence are no code. */
function code(text: string): string {
  return text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\/\/.*$/gm, '')
    .replace(/'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g, "''");
}

function imports(text: string): string[] {
  const statements =
    /^\s*(?:import|export)\b[^;'"]*?from\s*['"]([^'"]+)['"]|^\s*import\s*['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm;
  return [...text.matchAll(statements)].map((match) => match[1] ?? match[2] ?? match[3]);
}

function violations(part: keyof typeof RULES): string[] {
  const { parts, packages } = RULES[part];
  return sources(join(ROOT, part)).flatMap((file) =>
    imports(readFileSync(file, 'utf8')).flatMap((name) => {
      const where = `${relative(ROOT, file)} imports ${name}`;
      if (!name.startsWith('.')) {
        return packages === null || packages.some((p) => name === p || name.startsWith(p)) ? [] : [where];
      }
      const target = resolve(dirname(file), name);
      const [top] = relative(ROOT, target).split('/');
      if (top !== part && !parts.includes(top as Part)) return [where];
      return existsSync(target.replace(/\?.*$/, '')) ? [] : [`${where}, which does not exist`];
    }),
  );
}

describe('the house', () => {
  test.each(Object.keys(RULES) as (keyof typeof RULES)[])('%s imports only what it may', (part) => {
    expect(sources(join(ROOT, part)).length).toBeGreaterThan(3);
    expect(violations(part)).toEqual([]);
  });

  test.each(['dsp', 'shared'])('%s has no clock, no chance, no input or output', (part) => {
    const found = sources(join(ROOT, part)).flatMap((file) => {
      const text = code(readFileSync(file, 'utf8'));
      return IMPURE.filter((pattern) => pattern.test(text)).map((pattern) => `${relative(ROOT, file)}: ${pattern}`);
    });
    expect(found).toEqual([]);
  });

  test('holds nothing at the top but what is agreed', () => {
    const allowed = [
      ...PARTS,
      ...[
        'README.md',
        'DEVELOPERS.md',
        'LICENSE',
        'package.json',
        'package-lock.json',
        'tsconfig.json',
        'node_modules',
      ],
    ];
    const found = readdirSync(ROOT).filter((name) => !name.startsWith('.') && !allowed.includes(name));
    expect(found).toEqual([]);
  });

  test('its own rules would notice: imports and impure words are found in sources', () => {
    const text = "import { a } from '../api/x.ts';\nexport { b } from 'kysely';\nconst c = await import('node:fs');";
    expect(imports(text)).toEqual(['../api/x.ts', 'kysely', 'node:fs']);
    expect(IMPURE.some((pattern) => pattern.test(code('const t = Date.now();')))).toBe(true);
    expect(IMPURE.some((pattern) => pattern.test(code("// Date\nconst t = 'Date'; /* Math.random */")))).toBe(false);
  });
});
