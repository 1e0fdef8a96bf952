/** `npm run generators`: features about toe-off by speed, as published and as both generators make them. */
import { firstGenerator, meanAndSd, secondGenerator } from './populations.ts';
import { BY_CUTOFF, type Feature, PUBLISHED } from './published.ts';

const RUNNERS = 16;
const GENERATORS = [firstGenerator, secondGenerator];
const show = (values: number[], digits: number) => {
  const { mean, sd } = meanAndSd(values);
  return `${mean.toFixed(digits)} +- ${sd.toFixed(digits)}`;
};
const row = (cells: string[]) => console.log(`| ${cells.map((cell, i) => cell.padEnd(i < 2 ? 19 : 21)).join(' | ')} |`);

console.log(`Features about toe-off at 50 N; mean +- SD between ${RUNNERS} runners of each generator. ms, rad/s.\n`);
row(['speed', 'feature', 'published, by person', 'allowed mean', 'first generator', 'second generator']);
row(Array.from({ length: 6 }, () => '---'));
for (const published of PUBLISHED) {
  const made = GENERATORS.map((generator) => generator(published.speed_mps, RUNNERS));
  for (const feature of Object.keys(published.mean) as Feature[]) {
    const digits = feature === 'foot_ratio' ? 2 : 1;
    const found = made.map((runners) =>
      show(
        runners.map((runner) => runner[feature]),
        digits,
      ),
    );
    row([published.title, feature, published.people[feature], published.mean[feature].join(' to '), ...found]);
  }
}

console.log('\nBy cut-off of the low-pass at 9.5 m/s, mean:\n');
row(['Hz', 'feature', 'published', 'first generator', 'second generator']);
row(Array.from({ length: 5 }, () => '---'));
BY_CUTOFF.hz.forEach((hz, i) => {
  const made = GENERATORS.map((generator) => generator(9.5, RUNNERS, hz));
  for (const feature of ['foot_peak_ms', 'fold_begins_ms'] as const) {
    const found = made.map((runners) => meanAndSd(runners.map((runner) => runner[feature])).mean.toFixed(1));
    row([String(hz), feature, String(BY_CUTOFF[feature][i]), ...found]);
  }
});

console.log('\nRunners with two humps of the foot’s rate (published: about one in six at 2.5 to 4.5 m/s):\n');
for (const speed of [2.5, 3.5, 4.5, 9.5]) {
  const shares = GENERATORS.map((generator) => {
    const runners = generator(speed, 36);
    return `${runners.filter(({ two_humps }) => two_humps).length} of ${runners.length}`;
  });
  console.log(`${speed} m/s: first ${shares[0]}, second ${shares[1]}`);
}
