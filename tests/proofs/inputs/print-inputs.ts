/**
 * npm run proof:inputs [-- COUNT [SEED]]: damaged inputs over every reader and every request of the API; prints what became of them.
 * Nothing may crash (anything thrown but a fault, or an answer of 500), take more than two seconds of processor, or come to something
 * else in pieces than whole.
 */
import { uniform } from '../../helpers/random.ts';
import { httpBodies } from './http-bodies.ts';
import { allReaders } from './readers.ts';
import { type Outcome, tryInput } from './try-input.ts';

const [count = 100_000, seed = 1] = process.argv.slice(2).map(Number);
/** Sensor files take by far the longest; the rest is quick. Shares of the inputs. */
const SHARE_OF_HTTP = 0.3;

type Tally = Record<Outcome['kind'], number> & { inputs: number; slowest_s: number };
const tallies = new Map<string, Tally>();
const faults: string[] = [];

function note(name: string, outcome: Outcome, what: string): void {
  const tally = tallies.get(name) ?? { inputs: 0, read: 0, refused: 0, crashed: 0, slow: 0, differs: 0, slowest_s: 0 };
  tally.inputs++;
  tally[outcome.kind]++;
  tally.slowest_s = Math.max(tally.slowest_s, outcome.cpu_s);
  tallies.set(name, tally);
  if (outcome.kind === 'read' || outcome.kind === 'refused') return;
  faults.push(
    `${name}: ${outcome.kind} (${outcome.cpu_s.toFixed(2)} s) ${outcome.why.split('\n').slice(0, 4).join(' | ')}\n    ${what}`,
  );
  if (faults.length <= 40) console.log(faults.at(-1));
}

const { readers, close } = allReaders();
const ofHttp = Math.round(count * SHARE_OF_HTTP);
const each = Math.ceil((count - ofHttp) / readers.length);
for (const reader of readers) {
  for (let n = 0; n < each; n++) {
    const what = `seed ${seed} input ${n}`;
    const bytes = reader.make(uniform(seed * 1_000_003 + n));
    const outcome = await tryInput(() => reader.read(bytes, true));
    if (reader.pieces && (outcome.kind === 'read' || outcome.kind === 'refused')) {
      const pieces = await tryInput(() => reader.read(bytes, false));
      if (pieces.value !== outcome.value) {
        outcome.kind = 'differs';
        outcome.why = `whole ${outcome.value.slice(0, 200)} pieces ${pieces.value.slice(0, 200)}`;
      }
    }
    note(reader.name, outcome, what);
  }
  console.log(`${reader.name}: ${JSON.stringify(tallies.get(reader.name))}`);
}
close();
const http = await httpBodies();
for (let n = 0; n < ofHttp; n++) {
  const { what, ...outcome } = await http.ask(uniform(seed * 1_000_003 + n));
  note('requests', outcome, `seed ${seed} input ${n}: ${what}`);
}
await http.close();
console.table(Object.fromEntries(tallies));
const inputs = [...tallies.values()].reduce((sum, tally) => sum + tally.inputs, 0);
console.log(`${inputs} inputs, ${faults.length} crashed, slow or different`);
process.exit(faults.length > 0 ? 1 : 0);
