/** Prints the errors of strides and angles against the recordings with a reference: `npm run validate:strides`. */
import { readdirSync } from 'node:fs';
import { recordingsFolders } from '../../helpers/recordings.ts';
import { judgedStrides, leaveOneRunnerOut, likeliest } from './fit-length-uncertainty.ts';
import { Errors, fasterErrors, shoeSensorErrors, treadmillErrors } from './stride-figures.ts';

const folders = recordingsFolders();
if (folders === null) {
  console.error('No recordings: set CINDERLANE_DATA to their folder.');
  process.exit(1);
}
const [folder] = folders;
if (process.argv.includes('--fit')) {
  await printFit(folders);
  process.exit(0);
}

/** What the uncertainty of a stride's length is made of, and how it holds for runners that it was not found from. */
async function printFit(all: string[]): Promise<void> {
  const strides = await judgedStrides(all);
  const { rest_speed_mps_u, length_share_u } = likeliest(strides);
  console.log(
    `likeliest of ${strides.length} strides: rest_speed_mps_u ${rest_speed_mps_u.toFixed(3)}, length_share_u ${length_share_u.toFixed(4)}`,
  );
  const judged = leaveOneRunnerOut(strides);
  console.log('95 % intervals that hold, each runner by what all others gave:');
  for (const set of ['belts', 'twice as fast', 'shoe']) {
    const own = judged.filter((one) => one.set === set);
    const sum = (of: 'held' | 'n') => own.reduce((total, one) => total + one[of], 0);
    const [worst] = [...own].sort((a, b) => a.held / a.n - b.held / b.n);
    console.log(
      `  ${set.padEnd(14)} ${((100 * sum('held')) / sum('n')).toFixed(1)} % of ${sum('n')}; worst ${worst.runner} ${((100 * worst.held) / worst.n).toFixed(1)} %`,
    );
  }
}

function print(name: string, errors: Errors): void {
  for (const quantity of errors.quantities) {
    const { n, bias, sd, covered } = errors.of(quantity);
    const figures = [bias, sd].map((value) => value.toFixed(2).padStart(7)).join(' +- ');
    console.log(
      `${name.padEnd(28)} ${quantity.padEnd(26)} ${String(n).padStart(5)} ${figures}   ${(100 * covered).toFixed(0).padStart(3)} %`,
    );
  }
}

console.log('recording                    quantity                       n     bias +-      SD   within 1.96 u');
const pooled = new Errors();
for (const from of folders) {
  for (const name of readdirSync(from)
    .filter((entry) => /^(treadmill-run|overground)/.test(entry))
    .sort()) {
    const errors = await treadmillErrors(from, name);
    print(name, errors);
    pooled.addAll(errors);
  }
}
print('all of these', pooled);
for (const [scale, range_g] of [
  [1.5, null],
  [2, null],
  [1.5, '16 g'],
  [2, '16 g'],
] as const) {
  const faster = await fasterErrors(folder, 'treadmill', scale, range_g);
  const label = `${scale} times faster${range_g ? `, ${range_g}` : ''}`;
  print(label, faster.errors);
  console.log(`${label}: ${faster.refused} of ${faster.strides} strides refused`);
}
const { errors, refused } = await shoeSensorErrors(folder);
print('shoe-jog-loops', errors);
console.log(`shoe-jog-loops: ${refused} strides refused: the gyroscope was clipped, or the height did not come back`);
