import { mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';

/**
 * Writes files into a folder, which is made when it is not there. Each appears whole under its name or not at all.
 * @param files text by file name
 * @returns paths written
 * @throws FaultError OUTPUT_NOT_WRITABLE
 */
export async function writeOutputFiles(folder: string, files: Record<string, string>): Promise<string[]> {
  const passing: string[] = [];
  try {
    await mkdir(folder, { recursive: true });
    for (const [name, text] of Object.entries(files)) {
      const path = join(folder, `.${name}.${process.pid}.part`);
      passing.push(path);
      await writeFile(path, text);
    }
    for (const [i, name] of Object.keys(files).entries()) await rename(passing[i], join(folder, name));
  } catch (error) {
    await Promise.all(passing.map((path) => rm(path, { force: true })));
    throw new FaultError(
      fault('OUTPUT_NOT_WRITABLE', { folder, why: error instanceof Error ? error.message : String(error) }, { folder }),
    );
  }
  return Object.keys(files).map((name) => join(folder, name));
}
