import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { readStreamDescription } from '../description/read-stream-description.ts';
import bramble from './bramble.json' with { type: 'json' };
import fescue from './fescue.json' with { type: 'json' };
import reference_sensor from './reference-sensor.json' with { type: 'json' };
import sorrel from './sorrel.json' with { type: 'json' };
import teasel from './teasel.json' with { type: 'json' };
import yarrow from './yarrow.json' with { type: 'json' };

/** The descriptions that come with the project: of invented sensors, as examples to copy, and of the reference sensor. */
export function shippedDescriptions(): StreamDescription[] {
  const shipped = { bramble, teasel, sorrel, yarrow, fescue, 'reference-sensor': reference_sensor };
  return Object.entries(shipped).map(([name, content]) =>
    readStreamDescription(`${name}.json`, JSON.stringify(content)),
  );
}
