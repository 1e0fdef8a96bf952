/**
 * Tries to find dates, sessions and people of an invented club in its own exports, level by level: `npm run reidentify --
 * [--athletes 16] [--sessions 40]`. Exits with 1 when an attack on the open level finds more than chance would.
 */
import { parseArgs } from 'node:util';
import { openTestApi } from '../../../helpers/test-api.ts';
import { attackedLevels, moreThanChance } from './attacked-levels.ts';

const { values } = parseArgs({
  options: { athletes: { type: 'string', default: '16' }, sessions: { type: 'string', default: '40' } },
});
const api = await openTestApi();
const results = await attackedLevels(api, Number(values.athletes), Number(values.sessions));
console.log(
  `${'found by'.padEnd(40)}${'aim'.padEnd(10)}${Object.keys(results)
    .map((level) => level.padStart(24))
    .join('')}`,
);
for (const [i, { attack, aim }] of results.open.entries())
  console.log(
    attack.padEnd(40) +
      aim.padEnd(10) +
      Object.values(results)
        .map((level) => `${level[i].found} of ${level[i].of}`.padStart(24))
        .join(''),
  );
await api.close();
process.exitCode = results.open.some(moreThanChance) ? 1 : 0;
