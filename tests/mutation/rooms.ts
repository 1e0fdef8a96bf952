import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT, sources } from '../helpers/house.ts';

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
 * A folder with its tests: those in the folder of the same name below tests/ and tests/outside-checks/. Tests of the whole way would
 * notice more, and take minutes for each mutant.
 */
export function mutatedRoom(folder: string): MutatedRoom {
  if (!existsSync(join(ROOT, folder)))
    throw new Error(`No folder ${folder}: name one of ${mutatedFolders().join(', ')}`);
  const [, ...room] = folder.split('/');
  const own = [`tests/${folder}/`, `tests/outside-checks/${room.join('/')}/`];
  const tests = sources('tests').filter(
    (file) => /\.(test|check)\.ts$/.test(file) && own.some((place) => file.startsWith(place)),
  );
  return { folder, tests };
}
