/** `npm run verdict:figures`: false words and power of the verdict, before and after recent weeks weighed more. */
import { FORMER_BLOCK, PRESENT_BLOCK, simulateBlocks } from './simulate-blocks.ts';
import { FORMER, PRESENT, simulateEvenings } from './simulate-evenings.ts';

const percent = (share: number) => `${(100 * share).toFixed(0).padStart(3)} %`;
const line = (cells: readonly string[]) => console.log(cells.join('   '));
const ATHLETES = Number(process.argv[2] ?? 1000);

console.log('One evening of six repetitions. TE: typical error. Told by repetition 1, 3, 6.');
console.log(
  'history    between days   rule     unchanged: repetitions, evenings    1 TE            2 TE            3 TE',
);
for (const [sessions, repetitions] of [
  [1, 3],
  [2, 3],
  [4, 3],
  [8, 3],
  [10, 4],
]) {
  for (const between_share of [0.15, 0.3, 0.4]) {
    const athlete = { sessions, repetitions, typical_error: 2.5, between_share };
    for (const [name, rule] of [
      ['former', FORMER],
      ['present', PRESENT],
    ] as const) {
      const none = simulateEvenings(rule, athlete, 0, ATHLETES, 1);
      const told = [1, 2, 3].map((change) => simulateEvenings(rule, athlete, -change, ATHLETES / 2, 2).told_by);
      line([
        `${sessions} x ${repetitions}`.padEnd(8),
        percent(between_share),
        name.padEnd(8),
        percent(none.repetitions),
        percent(none.evenings),
        ...told.map((by) => [0, 2, 5].map((k) => percent(by[k])).join(' ')),
      ]);
    }
  }
}

console.log('\nA block of sixteen sessions of three repetitions. Told by session 4, 8, 16.');
console.log('before   between days   rule      unchanged         2 TE at once      1 TE evenly       2 TE evenly');
for (const sessions of [0, 6]) {
  for (const between_share of [0.15, 0.3, 0.4]) {
    const athlete = { sessions, repetitions: 3, typical_error: 2.5, between_share };
    for (const [name, rule] of [
      ['former', FORMER_BLOCK],
      ['present', PRESENT_BLOCK],
    ] as const) {
      const told = (typical_errors: number, at_once: boolean, seed: number) =>
        simulateBlocks(rule, athlete, { typical_errors, at_once }, ATHLETES / 4, seed);
      const rows = [told(0, true, 1), told(-2, true, 2), told(-1, false, 2), told(-2, false, 2)];
      line([
        String(sessions).padEnd(6),
        percent(between_share),
        name.padEnd(8),
        ...rows.map((by) => [3, 7, 15].map((k) => percent(by[k])).join(' ')),
      ]);
    }
  }
}
