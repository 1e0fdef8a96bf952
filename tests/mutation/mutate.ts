/**
 * Changes the sources of dsp/ and ingest/ in small ways, one at a time, and says which changes no test notices.
 *
 *     npm run mutate                               every folder, which takes hours
 *     npm run mutate -- dsp/numeric dsp/fit        these folders
 *     npm run mutate -- dsp/numeric --survivors    with the changes that nobody noticed
 *     npm run mutate -- dsp/events --tests tests/dsp/events/impact-onset.test.ts --files dsp/events/impact-onset.ts
 *
 * Settings are constants that count as covered by every test; they are left out here, and tests name those that matter.
 */
import { Stryker } from '@stryker-mutator/core';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { parseArgs } from 'node:util';
import { ROOT } from '../helpers/house.ts';
import { mutatedFolders, mutatedRoom } from './rooms.ts';

type Options = ConstructorParameters<typeof Stryker>[0];
type Mutants = Awaited<ReturnType<Stryker['runMutationTest']>>;

/** Of the changes that a test reached or should have: how many were noticed. */
interface Score {
  noticed: number;
  all: number;
}

const { values: asked, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    survivors: { type: 'boolean', default: false },
    tests: { type: 'string' },
    files: { type: 'string' },
    workers: { type: 'string', default: '1' },
  },
});

async function mutate(folder: string): Promise<Mutants> {
  const { tests } = mutatedRoom(folder);
  process.env.MUTATED_TESTS = asked.tests ?? tests.join(',');
  return new Stryker({
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
    mutate: asked.files?.split(',') ?? [`${folder}/**/*.ts`, '!**/index.ts', `!dsp/settings/**`],
    ignorePatterns: ['web', 'api', 'seeds', '.ci', '**/dist', '**/*.tgz'],
    // There is no compiler to ask: its own work on tsconfig.json is not needed where nothing is moved.
    tsconfigFile: 'none.json',
    checkers: [],
    reporters: [],
    coverageAnalysis: 'perTest',
    ignoreStatic: true,
    concurrency: Number(asked.workers),
    timeoutMS: 2000,
    timeoutFactor: 3,
    tempDirName: mkdtempSync(join(tmpdir(), 'mutation-')),
    symlinkNodeModules: true,
    disableTypeChecks: false,
    allowEmpty: true,
    logLevel: 'error' as Options['logLevel'],
  }).runMutationTest();
}

function scoreOf(mutants: Mutants): Score {
  const counted = mutants.filter(({ status }) => ['Killed', 'Timeout', 'Survived', 'NoCoverage'].includes(status));
  return {
    noticed: counted.filter(({ status }) => status === 'Killed' || status === 'Timeout').length,
    all: counted.length,
  };
}

function told(name: string, { noticed, all }: Score): string {
  return `${name.padEnd(44)} ${String(noticed).padStart(5)} of ${String(all).padStart(5)}  ${all > 0 ? `${((100 * noticed) / all).toFixed(1)} %` : 'nothing to change'}`;
}

const total: Score = { noticed: 0, all: 0 };
for (const folder of positionals.length > 0 ? positionals : mutatedFolders()) {
  const mutants = await mutate(folder);
  const score = scoreOf(mutants);
  total.noticed += score.noticed;
  total.all += score.all;
  for (const file of [...new Set(mutants.map(({ fileName }) => fileName))].sort()) {
    const here = mutants.filter(({ fileName }) => fileName === file);
    console.log(told(`  ${relative(ROOT, file)}`, scoreOf(here)));
  }
  console.log(told(folder, score));
  if (!asked.survivors) continue;
  for (const { status, fileName, location, mutatorName, replacement } of mutants) {
    if (status !== 'Survived' && status !== 'NoCoverage') continue;
    const place = `${relative(ROOT, fileName)}:${location.start.line}:${location.start.column}`;
    const change = replacement?.replace(/\s+/g, ' ').slice(0, 120);
    console.log(`${status === 'Survived' ? 'survived' : 'not reached'} ${place} ${mutatorName}: ${change}`);
  }
}
console.log(told('together', total));
