/** Prints the errors of strides and angles against the recordings with a reference: `npm run validate:strides`. */
import { readdirSync } from 'node:fs';
import { recordingsFolder } from '../../helpers/recordings.ts';
import { Errors, fasterErrors, shoeSensorErrors, treadmillErrors } from './stride-figures.ts';

const folder = recordingsFolder();
if (folder === null) {
  console.error('No recordings: set CINDERLANE_DATA to their folder.');
  process.exit(1);
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
for (const name of readdirSync(folder)
  .filter((entry) => /^(treadmill-run|overground)/.test(entry))
  .sort()) {
  const errors = await treadmillErrors(folder, name);
  print(name, errors);
  pooled.addAll(errors);
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
