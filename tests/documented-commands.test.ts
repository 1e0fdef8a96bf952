/**
 * The README's commands, run as they stand there: a reader's first ones on files of a sprint, and of all others at least that the
 * program knows the command and each of its options.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { generateRepetition } from '../seeds/generate-repetition.ts';
import { sensorCsv } from './helpers/sensor-csv.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const PROGRAM = join(ROOT, 'api/command-line/cinderlane.mjs');
const DOCUMENTS = ['README.md', 'ingest/ble/README.md', 'api/packaging/README.md'];

/** Arguments of every `cinderlane ...` in code of the documents, each once. */
const COMMANDS = [
  ...new Set(
    DOCUMENTS.flatMap((name) =>
      [...readFileSync(join(ROOT, name), 'utf8').matchAll(/(?:^|[`\s])cinderlane +([a-z-][^`\n#&]*)/gm)].map((match) =>
        match[1].trim(),
      ),
    ),
  ),
].filter((command) => /^(--help|[a-z]+ --)/.test(command));

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-documented-'));
  const { left, right } = generateRepetition({
    seed: 4,
    mountings: ['foot'],
    repetitions: [{ effort: 1, distance_m: 60 }],
    stand_before_s: 2,
    sensor: { rate_hz: 250 },
  }).sensors.foot;
  writeFileSync(join(folder, 'L.csv'), sensorCsv(left));
  writeFileSync(join(folder, 'R.csv'), sensorCsv(right));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (words: string[]) => spawnSync(process.execPath, [PROGRAM, ...words], { cwd: folder, encoding: 'utf8' });

describe('commands of the documents', () => {
  test('are found', () => {
    expect(COMMANDS.length).toBeGreaterThan(5);
    expect(COMMANDS.filter((command) => command.startsWith('analyze')).length).toBeGreaterThan(1);
  });

  test.each(COMMANDS.filter((command) => command.startsWith('analyze')))('cinderlane %s', (command) => {
    const words = command.split(/\s+/);
    const { status, stderr } = run(words);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    const out = words[words.indexOf('--out') + 1];
    expect(readdirSync(join(folder, out))).toEqual(expect.arrayContaining(['steps.csv', 'quality.json']));
    expect(readFileSync(join(folder, out, 'steps.csv'), 'utf8').split('\n').length).toBeGreaterThan(20);
  });

  test.each(COMMANDS.filter((command) => !command.startsWith('analyze')))('cinderlane knows: %s', (command) => {
    const [name, ...words] = command.split(/\s+/);
    const { status, stdout } = run(name === '--help' ? ['--help'] : [name, '--help']);
    expect(status).toBe(0);
    for (const option of words.filter((word) => word.startsWith('--'))) expect(stdout).toContain(option);
  });
});
