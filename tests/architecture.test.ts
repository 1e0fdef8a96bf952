/**
 * Who may import whom (see 'The house' in DEVELOPERS.md), and what the pure parts must not touch. Reads the sources as
 * text, so that a new file is under the rules from its first line.
 */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  backArrows,
  circles,
  code,
  type ImportGraph,
  importGraph,
  imports,
  isThere,
  ROOT,
  sources,
  targetOf,
  textOf,
} from './helpers/house.ts';

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
  ingest: {
    parts: ['shared'],
    packages: [
      'node:',
      'papaparse',
      'fflate',
      'saxen',
      'node-ble',
      'dbus-next',
      '@homebridge/dbus-native',
      'ajv',
      'typebox',
    ],
  },
  dsp: { parts: ['shared'], packages: ['fili', 'fft.js', 'simple-statistics'] },
  // seeds fills an empty database on the first start of the server.
  api: { parts: ['shared', 'ingest', 'dsp', 'seeds'], packages: null },
  web: {
    parts: ['shared'],
    // node: only for what builds the view.
    packages: [
      'node:url',
      'node:crypto',
      'node:zlib',
      'node:fs',
      'preact',
      '@preact/signals',
      'uplot',
      'vite',
      'typebox',
      '@fontsource-variable/',
      'workbox-precaching',
    ],
  },
  seeds: { parts: ['shared'], packages: ['node:'] },
};

/**
 * Rooms of each part, from the ground up: a room imports only itself and rooms before it. A room is a folder without the
 * folders in it, or one file.
 */
const ROOMS = {
  dsp: [
    'dsp/numeric',
    'dsp/filters',
    'dsp/fit',
    'dsp/settings',
    'dsp/signals',
    'dsp/events',
    'dsp/events/gyroscope',
    'dsp/events/accelerometer',
    'dsp/learned',
    'dsp/repetitions',
    'dsp/strides',
    'dsp/quality',
    'dsp/athlete',
    'dsp/agreement',
    'dsp',
  ],
  ingest: [
    'ingest',
    'ingest/csv/columns',
    'ingest/csv/sheet',
    'ingest/csv/motion',
    'ingest/csv/text',
    'ingest/csv/time',
    'ingest/csv/rows',
    'ingest/csv/infer',
    'ingest/csv/plan',
    'ingest/csv',
    'ingest/timing',
    'ingest/clock',
    'ingest/ble/packets',
    'ingest/ble/description',
    'ingest/ble/descriptions',
    'ingest/ble/assembly',
    'ingest/ble/sources',
    'ingest/ble/sources/node-ble',
    'ingest/ble/sources/bluez',
    'ingest/ble/sources/machine',
  ],
  api: [
    'api',
    'api/store',
    'api/access',
    'api/pdf',
    'api/figures',
    'api/coach',
    'api/measuring',
    'api/measuring/jobs',
    'api/capture/sensors',
    'api/capture/recording',
    'api/capture/results',
    'api/capture/replay',
    'api/capture/archive',
    'api/capture/explore',
    'api/capture/checks',
    'api/capture',
    'api/export',
    'api/export/privacy',
    'api/export/tables',
    'api/export/motion-bids',
    'api/export/formats',
    'api/coach/words',
    'api/coach/plans',
    'api/coach/judgement',
    'api/coach/tests',
    'api/coach/people',
    'api/coach/film',
    'api/coach/desk',
    'api/coach/norms',
    'api/coach/report',
    'api/agreement',
    'api/http',
    'api/routes/coach',
    'api/routes',
    'api/server',
    'api/backup',
    'api/archive',
    'api/archive/rows',
    'api/archive/exchange',
    'api/archive/research',
    'api/archive/work',
    'api/archive/serve',
    'api/command-line',
    'api/packaging/clients',
    'api/packaging',
  ],
  web: [
    'web/shell/offline',
    'web/vite.config.ts',
    'web/app/preferences.ts',
    'web/client.ts',
    'web/api.ts',
    'web/app',
    'web/parts/plot',
    'web/parts',
    'web/parts/layout-editor',
    'web/pages/repetition',
    'web/pages/files',
    'web/pages/live',
    'web/pages/captures',
    'web/pages/describe',
    'web/pages/coach',
    'web/pages/coach/parts',
    'web/pages/coach/athletes',
    'web/pages/coach/course',
    'web/pages/coach/focus',
    'web/pages/coach/standing',
    'web/pages/coach/compare',
    'web/pages/coach/film',
    'web/pages/session',
    'web/pages/sessions',
    'web/pages/coach/tests',
    'web/pages/coach/plan',
    'web/pages/coach/field',
    'web/pages/coach/reports',
    'web/pages/research',
    'web/pages/layouts',
    'web/pages/access',
    'web/pages/settings',
    'web/pages/archive',
    'web/routes.ts',
    'web/archive-routes.ts',
    'web/shell',
    'web',
  ],
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

function violations(part: keyof typeof RULES): string[] {
  const { parts, packages } = RULES[part];
  return sources(part).flatMap((file) =>
    imports(textOf(file)).flatMap((name) => {
      if (!name.startsWith('.')) {
        return packages === null || packages.some((p) => name === p || name.startsWith(p))
          ? []
          : [`${file} imports ${name}: ${part} uses only ${packages.join(', ')}`];
      }
      const target = targetOf(file, name);
      const [top] = target.split('/');
      if (top !== part && !parts.includes(top as Part)) {
        return [`${file} imports ${target}: ${part} imports only ${[part, ...parts].join(', ')}`];
      }
      return isThere(target) ? [] : [`${file} imports ${target}, which does not exist`];
    }),
  );
}

describe('the house', () => {
  test.each(Object.keys(RULES) as (keyof typeof RULES)[])('%s imports only what it may', (part) => {
    expect(sources(part).length).toBeGreaterThan(3);
    expect(violations(part)).toEqual([]);
  });

  test('has no circle of imports, by value or by type', () => {
    expect(circles(importGraph(PARTS.flatMap(sources)))).toEqual([]);
  });

  test.each(Object.keys(ROOMS) as (keyof typeof ROOMS)[])('%s has rooms in one order, and no arrow back', (part) => {
    expect(backArrows(importGraph(sources(part)), ROOMS[part])).toEqual([]);
  });

  test.each(['dsp', 'shared'])('%s has no clock, no chance, no input or output', (part) => {
    const found = sources(part).flatMap((file) => {
      const text = code(textOf(file));
      return IMPURE.filter((pattern) => pattern.test(text)).map((pattern) => `${file}: ${pattern}`);
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
});

describe('its own rules would notice', () => {
  test('imports and impure words in sources', () => {
    const text = "import { a } from '../api/x.ts';\nexport { b } from 'kysely';\nconst c = await import('node:fs');";
    expect(imports(text)).toEqual(['../api/x.ts', 'kysely', 'node:fs']);
    expect(IMPURE.some((pattern) => pattern.test(code('const t = Date.now();')))).toBe(true);
    expect(IMPURE.some((pattern) => pattern.test(code("// Date\nconst t = 'Date'; /* Math.random */")))).toBe(false);
  });

  test('a type that is imported back, as a circle with the way round it', () => {
    expect(imports("import type { A } from './a.ts';")).toEqual(['./a.ts']);
    const graph: ImportGraph = new Map([
      ['dsp/a.ts', ['dsp/b.ts', 'dsp/numeric/n.ts']],
      ['dsp/b.ts', ['dsp/c.ts']],
      ['dsp/c.ts', ['dsp/a.ts']],
      ['dsp/numeric/n.ts', []],
    ]);
    expect(circles(graph)).toEqual(['dsp/a.ts -> dsp/b.ts -> dsp/c.ts -> dsp/a.ts']);
    graph.set('dsp/c.ts', ['dsp/numeric/n.ts']);
    expect(circles(graph)).toEqual([]);
  });

  test('an arrow back between rooms and a room that nobody declared, each by its name', () => {
    const rooms = ['dsp/numeric', 'dsp/events', 'dsp'];
    const graph: ImportGraph = new Map([
      ['dsp/numeric/mean.ts', ['dsp/events/contact.ts', 'shared/words.ts']],
      ['dsp/events/contact.ts', ['dsp/numeric/mean.ts']],
      ['dsp/cellar/wine.ts', []],
    ]);
    expect(backArrows(graph, rooms)).toEqual([
      'dsp/numeric/mean.ts imports dsp/events/contact.ts: dsp/numeric comes before dsp/events, so arrows lead only the other way',
      'dsp/cellar/wine.ts lies in dsp/cellar, which is no declared room: name it in ROOMS, where its arrows fit',
    ]);
  });
});
