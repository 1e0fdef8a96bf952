// Loads a module of the project by the path of its source, wherever the program runs: in a checkout the TypeScript itself, in the
// package (which holds none) the file that was built from it. Plain JavaScript, since it comes before the loader of TypeScript.
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';

const root = new URL('../', import.meta.url);
const load = createRequire(import.meta.url);
let registered = false;

/** File name in api/dist of what is built from a source. @param {string} source path from the top, such as `api/version.ts` */
export function builtName(source) {
  return `${source.replace(/\.ts$/, '').replaceAll('/', '.')}.js`;
}

/** @param {string} source path from the top @returns {Promise<any>} its exports */
export async function loadSource(source) {
  const file = new URL(source, root);
  if (!existsSync(file)) return import(new URL(`dist/${builtName(source)}`, import.meta.url).href);
  // tsx's loader for `require` works within this thread; the one for `import` would need a second one, for 30 MB more.
  if (!registered) (await import('tsx/cjs/api')).register();
  registered = true;
  return load(`../${source}`);
}
