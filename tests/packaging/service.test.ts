import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { nodeProblem } from '../../api/command-line/check-machine.mjs';
import { serveCommand } from '../../api/command-line/serve.ts';
import { workCommand } from '../../api/command-line/work.ts';

const FOLDER = fileURLToPath(new URL('../../api/packaging/', import.meta.url));
const UNIT = readFileSync(`${FOLDER}cinderlane.service`, 'utf8');
const WORKER = readFileSync(`${FOLDER}cinderlane-worker@.service`, 'utf8');
const CONTAINER = readFileSync(`${FOLDER}Containerfile`, 'utf8');
const hasSystemd = spawnSync('systemd-analyze', ['--version']).status === 0;

/** Options of `serve` that a line names, without their dashes. */
const optionsIn = (line: string) => [...line.matchAll(/--([a-z-]+)/g)].map((match) => match[1]);

describe('the service', () => {
  test.skipIf(!hasSystemd).each([
    ['cinderlane.service', UNIT],
    ['cinderlane-worker@1.service', WORKER.replace('EnvironmentFile=', 'EnvironmentFile=-')],
  ])('%s is a unit that systemd accepts (skipped where systemd-analyze is missing)', (name, unit) => {
    // The program is installed by whoever installs the service; /bin/true stands in for it, since the check wants it to exist.
    const folder = mkdtempSync(join(tmpdir(), 'cinderlane-unit-'));
    try {
      const file = join(folder, name);
      writeFileSync(file, unit.replace('/usr/local/bin/cinderlane', '/bin/true'));
      const check = spawnSync('systemd-analyze', ['verify', '--man=no', file], { encoding: 'utf8' });
      expect(check.stderr.split('\n').filter((line) => line.includes('cinderlane'))).toEqual([]);
      expect(check.status).toBe(0);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  test('of a worker starts the command that works', () => {
    expect(/^ExecStart=\S+ (.*)$/m.exec(WORKER)![1]).toBe(workCommand.name);
  });

  test('passes only options that `serve` has', () => {
    const started = /^ExecStart=(.*)$/m.exec(UNIT)![1];
    expect(optionsIn(started)).toEqual(['host', 'port', 'data']);
    for (const option of optionsIn(started)) expect(serveCommand.options).toHaveProperty(option);
  });
});

describe('the container', () => {
  test('is built on a Node that is supported, and passes only options that `serve` has', () => {
    const versions = [...CONTAINER.matchAll(/^FROM node:(\d+)-/gm)].map((match) => match[1]);
    expect(versions.length).toBe(2);
    // An image's tag means the newest of its line.
    for (const version of versions) expect(nodeProblem(`${version}.99.0`)).toBeNull();
    const [word, ...words] = JSON.parse(/^CMD (.*)$/m.exec(CONTAINER)![1]) as string[];
    expect(word).toBe('serve');
    for (const option of optionsIn(words.join(' '))) expect(serveCommand.options).toHaveProperty(option);
  });

  test('sets the same allocator as the service', () => {
    const settings = (text: string) => /MALLOC_ARENA_MAX=.*$/m.exec(text)![0];
    expect(settings(CONTAINER)).toBe(settings(UNIT));
  });
});

test('a Node that is too old is named, with those that will do', () => {
  // The oldest that the libraries in use ask for: 20.19 and 22.12 (Vite's `engines`).
  for (const version of ['18.20.4', '20.18.1', '22.11.0', '23.5.0']) expect(nodeProblem(version)).toContain(version);
  for (const version of ['20.19.0', '22.12.0', '24.0.0', '25.1.0']) expect(nodeProblem(version)).toBeNull();
  expect(nodeProblem('18.0.0')!.split('\n')).toHaveLength(1);
});
