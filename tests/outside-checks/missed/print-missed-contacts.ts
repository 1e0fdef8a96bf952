/** Prints what is told of contacts that are missing, over many generated runs: `npm run validate:missed`. */
import { secondGeneratorCases } from '../validation/second-generator-cases.ts';
import {
  added,
  type Hiding,
  hide,
  judgeMissed,
  type MissedFigures,
  NO_FIGURES,
  type Run,
  runOf,
} from './missed-contacts.ts';

const SEEDS = Number(process.argv[2] ?? 50);
const HIDINGS: Hiding[] = ['none', 'damped', 'lost', 'first'];

function print(name: string, f: MissedFigures): void {
  console.log(
    `${name.padEnd(34)} ${f.not_found} of ${f.contacts} contacts not found, in ${f.intervals} places: ${f.told} told rightly; ` +
      `${f.false_places} told falsely; ${f.wrong_steps} wrong steps; first missing ${f.late_starts}, told ${f.late_starts_told}, ` +
      `falsely ${f.late_starts_false}; end told falsely ${f.ends_false}`,
  );
}

function over(name: string, runs: Iterable<[number, Run]>, hiding: Hiding): void {
  let sum = NO_FIGURES;
  for (const [seed, run] of runs) sum = added(sum, judgeMissed(hide(run, seed, hiding)));
  print(name, sum);
}

for (const mounting of ['foot', 'shank'] as const) {
  const runs = Array.from({ length: SEEDS }, (_, k): [number, Run] => [k + 1, runOf(k + 1, mounting)]);
  for (const hiding of HIDINGS) over(`first generator, ${mounting}, ${hiding}`, runs, hiding);
}
const second: [number, Run][] = [];
for (const { sensors, reference, has_gyroscope } of secondGeneratorCases(false, '')) {
  if (has_gyroscope && second.length < SEEDS) second.push([second.length + 1, { sensors, truth: reference }]);
}
for (const hiding of HIDINGS) over(`second generator, ${hiding}`, second, hiding);
