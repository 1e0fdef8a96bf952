import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { readStreamDescription } from '../description/read-stream-description.ts';
import bramble from './bramble.json' with { type: 'json' };
import teasel from './teasel.json' with { type: 'json' };

/** The descriptions that come with the project: two invented sensors, for the demo and as examples to copy. */
export function shippedDescriptions(): StreamDescription[] {
  const shipped = { 'bramble.json': bramble, 'teasel.json': teasel };
  return Object.entries(shipped).map(([name, content]) => readStreamDescription(name, JSON.stringify(content)));
}
