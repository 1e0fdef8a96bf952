import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { importGraph, ROOT, sources } from '../helpers/house.ts';

/** A folder whose code is changed in small ways, and the tests that are asked whether they notice. */
export interface MutatedRoom {
  folder: string;
  /** Test files, by their path from the top. */
  tests: string[];
}

/** Folders that are mutated one at a time: those right below the two parts, each with all that lies in it. */
export function mutatedFolders(): string[] {
  const folders = [...sources('dsp'), ...sources('ingest')].map((file) => file.split('/').slice(0, 2).join('/'));
  return [...new Set(folders)].filter((folder) => !folder.endsWith('.ts'));
}

/**
 * A folder with its tests: those in the folder of the same name below tests/ and tests/outside-checks/, and those of its part
 * that import from it. Tests of the whole way, such as a server's, would take minutes for each mutant.
 */
export function mutatedRoom(folder: string): MutatedRoom {
  if (!existsSync(join(ROOT, folder)))
    throw new Error(`No folder ${folder}: name one of ${mutatedFolders().join(', ')}`);
  const [part, ...room] = folder.split('/');
  const graph = importGraph(sources('tests'));
  const own = [`tests/${folder}/`, `tests/outside-checks/${room.join('/')}/`];
  const tests = [...graph].flatMap(([file, targets]) => {
    if (!/\.(test|check)\.ts$/.test(file)) return [];
    if (own.some((place) => file.startsWith(place))) return [file];
    const asked = file.startsWith(`tests/${part}/`) || /^tests\/outside-checks\/\w+\//.test(file);
    return asked && targets.some((target) => target.startsWith(`${folder}/`)) ? [file] : [];
  });
  return { folder, tests };
}
