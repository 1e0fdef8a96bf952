/** The sources as text, and who imports whom: what `tests/architecture.test.ts` judges. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Every TypeScript file below a folder of the checkout, by its path from the top. */
export function sources(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'dist' || entry.name === 'node_modules' ? [] : sources(path);
    return /\.tsx?$/.test(entry.name) ? [path] : [];
  });
}

export function textOf(file: string): string {
  return readFileSync(join(ROOT, file), 'utf8');
}

/** The source without comments and without the contents of strings: words in a sentence are no code. */
export function code(text: string): string {
  return text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\/\/.*$/gm, '')
    .replace(/'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g, "''");
}

/** What a source imports or exports from elsewhere, types included, as it is written there. */
export function imports(text: string): string[] {
  const statements =
    /^\s*(?:import|export)\b[^;'"]*?from\s*['"]([^'"]+)['"]|^\s*import\s*['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/gm;
  return [...text.matchAll(statements)].map((match) => match[1] ?? match[2] ?? match[3]);
}

/** The file of the checkout that a relative import names. */
export function targetOf(file: string, name: string): string {
  return relative(ROOT, resolve(ROOT, dirname(file), name.replace(/\?.*$/, '')));
}

export function isThere(file: string): boolean {
  return existsSync(join(ROOT, file));
}

/** Who imports whom, by path from the top. */
export type ImportGraph = Map<string, string[]>;

export function importGraph(files: readonly string[]): ImportGraph {
  return new Map(
    files.map((file) => [
      file,
      imports(textOf(file))
        .filter((name) => name.startsWith('.'))
        .map((name) => targetOf(file, name)),
    ]),
  );
}

/**
 * Circles of imports, each as the way round it: `a -> b -> a`. One circle is told of every knot of files that reach each
 * other.
 */
export function circles(graph: ImportGraph): string[] {
  const state = new Map<string, 'open' | 'done'>();
  const found: string[] = [];
  const way: string[] = [];
  const visit = (file: string): void => {
    state.set(file, 'open');
    way.push(file);
    for (const next of graph.get(file) ?? []) {
      if (state.get(next) === 'open') found.push([...way.slice(way.indexOf(next)), next].join(' -> '));
      else if (!state.has(next) && graph.has(next)) visit(next);
    }
    way.pop();
    state.set(file, 'done');
  };
  for (const file of graph.keys()) if (!state.has(file)) visit(file);
  return found;
}

/** The innermost of the rooms that a file lies in; a room is a folder or one file. */
export function roomOf(file: string, rooms: readonly string[]): string | undefined {
  const parts = file.split('/');
  for (let n = parts.length; n > 0; n--) {
    const path = parts.slice(0, n).join('/');
    if (rooms.includes(path)) return path;
  }
  return undefined;
}

/** Imports that lead from a room to one that is declared after it, and folders that no room is declared for. */
export function backArrows(graph: ImportGraph, rooms: readonly string[]): string[] {
  return [...graph].flatMap(([file, targets]) => {
    const room = roomOf(file, rooms);
    if (room !== file && room !== dirname(file)) {
      return [`${file} lies in ${dirname(file)}, which is no declared room: name it in ROOMS, where its arrows fit`];
    }
    return targets.flatMap((target) => {
      const other = roomOf(target, rooms);
      if (other === undefined || rooms.indexOf(other) <= rooms.indexOf(room)) return [];
      return [`${file} imports ${target}: ${room} comes before ${other}, so arrows lead only the other way`];
    });
  });
}
