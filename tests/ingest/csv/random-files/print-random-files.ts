/**
 * Reads thousands of random plausible files and prints what became of them, by kind: `npm run files -- [--files 5000] [--from 1]
 * [--motions 6] [--show 20]`. Exits with 1 when one was silently wrong or without end.
 */
import { parseArgs } from 'node:util';
import { judge, OUTCOMES, type Outcome } from './judge.ts';
import { makeRandomFile, type RandomFile } from './make-random-file.ts';

const { values } = parseArgs({
  options: {
    files: { type: 'string', default: '5000' },
    from: { type: 'string', default: '1' },
    motions: { type: 'string', default: '6' },
    show: { type: 'string', default: '20' },
  },
});
type Counts = Record<Outcome, number>;
const none = () => Object.fromEntries(OUTCOMES.map((outcome) => [outcome, 0])) as Counts;
const tables = new Map<keyof RandomFile['kinds'], Map<string, Counts>>();
const total = none();
const shown: Record<string, number> = {};
const from = Number(values.from);
for (let seed = from; seed < from + Number(values.files); seed++) {
  const file = makeRandomFile(seed, Number(values.motions));
  const { outcome, why } = await judge(file);
  total[outcome]++;
  for (const [table, kind] of Object.entries(file.kinds) as [keyof RandomFile['kinds'], string][]) {
    const rows = tables.get(table) ?? new Map<string, Counts>();
    tables.set(table, rows);
    const counts = rows.get(kind) ?? none();
    rows.set(kind, counts);
    counts[outcome]++;
  }
  const worth = OUTCOMES.indexOf(outcome) >= OUTCOMES.indexOf('asked, no right choice');
  if (worth) shown[outcome] = (shown[outcome] ?? 0) + 1;
  if (worth && shown[outcome] <= Number(values.show))
    console.log(`${outcome}: seed ${seed} (${Object.values(file.kinds).join('; ')}): ${why}`);
}
const header = ['', ...OUTCOMES].map((text, i) => (i === 0 ? text.padEnd(52) : text.padStart(23))).join('');
for (const [table, rows] of [...tables, ['all files', new Map([['all', total]])] as const]) {
  console.log(`\n${table}\n${header}`);
  for (const [kind, counts] of [...rows].sort(([a], [b]) => a.localeCompare(b)))
    console.log(kind.padEnd(52) + OUTCOMES.map((outcome) => String(counts[outcome] || '-').padStart(23)).join(''));
}
process.exitCode = total['SILENTLY WRONG'] + total['WITHOUT END'] > 0 ? 1 : 0;
