import { readFileSync } from 'node:fs';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { readStreamDescription } from '../description/read-stream-description.ts';

/** The descriptions that come with the project: two invented sensors, for the demo and as examples to copy. */
export function shippedDescriptions(): StreamDescription[] {
  return ['bramble.json', 'teasel.json'].map((name) =>
    readStreamDescription(name, readFileSync(new URL(name, import.meta.url), 'utf8')),
  );
}
