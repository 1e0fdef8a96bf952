/**
 * Prints how often each check of how a sensor was worn is right: sensors worn as stated, the same stated wrongly, and simulated
 * sensors on a loose strap. `doubtful` under 'as worn' is a false alarm everywhere but on the loose strap.
 */
import { recordingsFolder } from '../../helpers/recordings.ts';
import type { SensorQuality } from '../../../shared/analysis.ts';
import { MOUNTING_CHECKS } from '../../../shared/words.ts';
import { demoCases } from '../validation/demo-cases.ts';
import { forcePlateCases } from '../validation/force-plate-cases.ts';
import { secondGeneratorCases } from '../validation/second-generator-cases.ts';
import { simulatedCases } from '../validation/simulated-sets.ts';
import {
  accelerometerCases,
  countFindings,
  MISTAKES,
  qualityOf,
  shoeLoopCases,
  type WornCase,
} from './mounting-figures.ts';

async function* everything(): AsyncGenerator<WornCase> {
  const folder = recordingsFolder();
  if (folder === null) console.log('The real recordings are not there; simulated ones only.');
  else {
    yield* forcePlateCases(folder);
    yield* shoeLoopCases(folder);
    yield* accelerometerCases(folder);
  }
  yield* demoCases();
  yield* simulatedCases(process.argv.includes('--quick'));
  yield* secondGeneratorCases(process.argv.includes('--quick'), '');
}

const found = new Map<string, SensorQuality[]>();
for await (const one of everything()) {
  for (const mistake of Object.keys(MISTAKES)) {
    const needsRotation = MISTAKES[mistake].tells === 'turning';
    if (needsRotation && one.sensors.some(({ samples }) => samples.gyr_radps === null)) continue;
    const line = `${mistake}|${one.set}, ${one.mounting}`;
    found.set(line, [...(found.get(line) ?? []), ...qualityOf(one, mistake)]);
  }
}
for (const [mistake, { tells }] of Object.entries(MISTAKES)) {
  console.log(`\n${mistake}${tells ? ` (told by '${tells}')` : ''}: sensors as expected / cannot be told / doubtful`);
  console.log(`${''.padEnd(50)}${MOUNTING_CHECKS.map((check) => check.padEnd(14)).join('')}`);
  for (const [line, qualities] of found) {
    const [of, set] = line.split('|');
    if (of !== mistake) continue;
    const counts = countFindings(qualities);
    const cells = MOUNTING_CHECKS.map((check) => Object.values(counts[check]).join(' / ').padEnd(14));
    console.log(`${set.padEnd(50)}${cells.join('')}`);
  }
}
