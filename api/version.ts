import { readFileSync } from 'node:fs';

/** Version of the project, from package.json; stands in every result's provenance. */
export const VERSION: string = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8')).version;
