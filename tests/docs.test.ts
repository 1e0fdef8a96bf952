/**
 * Documents that are true: every link, path, script and command that a README or DEVELOPERS.md names exists. Commands are
 * looked at here; `documented-commands.test.ts` runs those of the program.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const SKIPPED = new Set(['node_modules', 'dist', '.git', '.cinderlane']);

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (!entry.isDirectory()) return [path];
    return SKIPPED.has(entry.name) ? [path] : [path, ...filesBelow(path)];
  });
}

const ALL = filesBelow(ROOT).map((path) => relative(ROOT, path));
const DOCUMENTS = ALL.filter((path) => /(^|\/)(README|DEVELOPERS)\.md$/.test(path));
const SCRIPTS = (JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { scripts: Record<string, string> })
  .scripts;
const PATH_ENDINGS = /\w\.(tsx?|mjs|js|json|sql|css|html|md|png|service|yml)$/;
/** Written by the program or by its user, and so in no checkout. */
const MADE_LATER =
  /^(steps|repetitions|dictionary|season|study|L|R)\.csv$|^(quality|datapackage|deidentification)\.json$|^(key|cert)\.pem$|^(web|api)\/dist|^shared\/(data|more-runners)$|^derivatives\/|-\d+\.\d+\.\d+\.tgz$/;

/** Whether a document may call something by this name: from its own folder, from the top, or by a file's name alone below its folder. */
function exists(name: string, document: string): boolean {
  const path = name.replace(/\/$/, '');
  if (existsSync(join(ROOT, dirname(document), path)) || existsSync(join(ROOT, path))) return true;
  const folder = dirname(document) === '.' ? '' : `${dirname(document)}/`;
  // `report/` or `judge.ts` of a room below, and `check-plan.ts` of a neighbour by its whole file name.
  return (
    ALL.some((file) => file.startsWith(folder) && file.endsWith(`/${path}`)) || ALL.some((f) => basename(f) === path)
  );
}

/** Everything between single backticks outside fenced blocks. */
function spans(text: string): string[] {
  return [...text.replace(/```[\s\S]*?```/g, '').matchAll(/`([^`\n]+)`/g)].map((match) => match[1]);
}

/** Commands of fenced blocks and of spans, one a line, comments left out. */
function commands(text: string): string[] {
  const fenced = [...text.matchAll(/```(?:sh|bash)?\n([\s\S]*?)```/g)].flatMap((match) => match[1].split('\n'));
  return [...fenced, ...spans(text)]
    .flatMap((line) => line.replace(/\s+#.*$/, '').split('&&'))
    .map((line) => line.trim())
    .filter((line) => /^(npm|npx|node|cinderlane)\s/.test(line.replace(/^([A-Z_]+=\S+ )+/, '')));
}

function pathsIn(text: string): string[] {
  return spans(text).filter(
    (span) => /^[\w.@-]+(\/[\w.@-]+)*\/?$/.test(span) && (span.includes('/') || PATH_ENDINGS.test(span)),
  );
}

/** Names such as `sudden-onset`: a file without its ending, a folder, or a package. */
function modulesIn(text: string): string[] {
  return spans(text).filter((span) => /^[a-z]+(-[a-z]+)+$/.test(span));
}

function isModule(name: string): boolean {
  const packages = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')) as { packages: object };
  return ALL.some((file) => basename(file).split('.')[0] === name) || `node_modules/${name}` in packages.packages;
}

/** First words of the lines of a fenced picture of folders: `name.ts   what it is`. */
function picturedIn(text: string): string[] {
  return [...text.matchAll(/```\n([\s\S]*?)```/g)]
    .flatMap((match) => match[1].split('\n'))
    .map((line) => /^([\w.-]+(?:\/[\w.-]+)*\/?)\s{2,}\S/.exec(line)?.[1] ?? '')
    .filter((name) => name.endsWith('/') || PATH_ENDINGS.test(name));
}

/** What is wrong with a command, as far as that shows without running it. */
function faultOf(command: string): string | null {
  const words = command.replace(/^([A-Z_]+=\S+ )+/, '').split(/\s+/);
  if (words[0] === 'npm') {
    const script = words[1] === 'run' ? words[2] : ['start', 'test'].includes(words[1]) ? words[1] : null;
    return script === null || script in SCRIPTS ? null : `no script ${script}`;
  }
  if (words[0] === 'npx' && words[1] === 'tsx') return existsSync(join(ROOT, words[2])) ? null : `no file ${words[2]}`;
  if (words[0] === 'npx' && words[1] === 'vitest') {
    const missing = words.filter((word) => word.startsWith('tests/') && !ALL.some((file) => file.startsWith(word)));
    return missing.length > 0 ? `no file ${missing.join(' ')}` : null;
  }
  if (words[0] === 'node') {
    const file = words.find((word) => /\.m?js$/.test(word));
    return file === undefined || existsSync(join(ROOT, file)) || MADE_LATER.test(file) ? null : `no file ${file}`;
  }
  return null;
}

describe.each(DOCUMENTS)('%s', (document) => {
  const text = readFileSync(join(ROOT, document), 'utf8');

  test('every link leads to a file', () => {
    const links = [...text.matchAll(/\]\(([^)#\s]+)[^)]*\)/g)].map((match) => match[1]);
    const broken = links.filter((link) => !/^https?:/.test(link) && !existsSync(join(ROOT, dirname(document), link)));
    expect(broken).toEqual([]);
  });

  test('every path it names exists', () => {
    const missing = [...pathsIn(text), ...picturedIn(text)].filter(
      (path) => !MADE_LATER.test(path) && !exists(path, document),
    );
    expect(missing).toEqual([]);
    expect(modulesIn(text).filter((name) => !isModule(name))).toEqual([]);
  });

  test('every command it names can be started', () => {
    expect(commands(text).flatMap((command) => faultOf(command) ?? [])).toEqual([]);
  });
});

describe('the documents together', () => {
  test('every part has a README, and DEVELOPERS.md links to every README', () => {
    const developers = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
    for (const part of ['shared', 'ingest', 'dsp', 'api', 'web', 'seeds', 'tests']) {
      expect(DOCUMENTS).toContain(`${part}/README.md`);
    }
    const others = DOCUMENTS.filter((path) => path.includes('/'));
    expect(others.filter((path) => !developers.includes(`(${path})`))).toEqual([]);
  });

  test('DEVELOPERS.md has at most 150 lines', () => {
    expect(readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8').trimEnd().split('\n').length).toBeLessThanOrEqual(150);
  });

  test('every script of package.json stands in DEVELOPERS.md, but for the steps of others', () => {
    const developers = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
    const steps = ['prepare', 'prepack', 'build', 'format:check', 'lint', 'types'];
    const named = (script: string) =>
      developers.includes(`\`npm run ${script}`) || developers.includes(`npm ${script}\``);
    expect(Object.keys(SCRIPTS).filter((script) => !steps.includes(script) && !named(script))).toEqual([]);
  });

  test('its own rules would notice what is missing', () => {
    const text = '`api/no-such-file.ts`, `npm run no-such-script`\n```\nnothing.ts   what it is\n```\n';
    expect(pathsIn(text).filter((path) => !exists(path, 'README.md'))).toEqual(['api/no-such-file.ts']);
    expect(picturedIn(text)).toEqual(['nothing.ts']);
    expect(modulesIn('`docs`, `no-such-module`, `simple-statistics`').filter((name) => !isModule(name))).toEqual([
      'no-such-module',
    ]);
    expect(commands(text).map(faultOf)).toEqual(['no script no-such-script']);
  });
});
