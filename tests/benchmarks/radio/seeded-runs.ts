import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { seededRun } from '../../helpers/seeded-radio/seeded-run.ts';

/** Recordings over a radio that misbehaves at random, five kinds of sensor in turn: nothing misplaced, nothing unsaid. */
export function seededRuns(runs: number, say: (text: string) => void): boolean {
  const kinds = shippedDescriptions();
  let good = true;
  for (const [k, description] of kinds.entries()) {
    const results = Array.from({ length: Math.ceil(runs / kinds.length) }, (_, i) =>
      seededRun(description, 1 + i * kinds.length + k),
    );
    const bad = results.filter((one) => one.repeated > 0 || one.unaccounted > 0 || one.worst_s > 1e-3);
    const sum = (of: (one: (typeof results)[number]) => number) => results.reduce((total, one) => total + of(one), 0);
    say(
      `  ${description.id}: ${results.length} runs, sent ${sum((one) => one.sent)}, stored ${sum((one) => one.stored)}, twice ${sum((one) => one.repeated)}, ` +
        `neither stored nor in a told gap ${sum((one) => one.unaccounted)}, pieces begun anew ${sum((one) => one.joins)}, ` +
        `worst time error ${(1000 * Math.max(...results.map((one) => one.worst_s))).toFixed(3)} ms, not as promised ${bad.length}`,
    );
    for (const one of bad.slice(0, 5)) say(`    seed ${one.seed}: ${JSON.stringify(one)}`);
    good &&= bad.length === 0;
  }
  return good;
}
