import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';

/**
 * The nearest file with this ending that applies to a motion file: in its folder, else further up, the one whose name says most
 * (inheritance principle of BIDS: what a name leaves out holds for all).
 * @param folder the data set: nothing above it is looked at
 * @param ending such as `_channels.tsv`
 * @returns where the file would lie beside the motion file when there is none
 */
export function appliesTo(folder: string, motionFile: string, ending: string): string {
  const beside = motionFile.replace(/_motion\.tsv$/, ending);
  if (existsSync(beside)) return beside;
  const entities = entitiesOf(basename(motionFile));
  for (let at = dirname(resolve(motionFile)); ; at = dirname(at)) {
    const [best] = (existsSync(at) ? readdirSync(at) : [])
      .filter((name) => name.endsWith(ending) && entitiesOf(name).every((entity) => entities.includes(entity)))
      .sort((a, b) => entitiesOf(b).length - entitiesOf(a).length);
    if (best) return join(at, best);
    if (at === resolve(folder) || at === dirname(at)) return beside;
  }
}

function entitiesOf(name: string): string[] {
  return name.split('_').slice(0, -1);
}
