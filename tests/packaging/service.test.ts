import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { nodeProblem } from '../../api/command-line/check-machine.mjs';
import { serveCommand } from '../../api/command-line/serve.ts';
import { archiveCommand } from '../../api/command-line/archive.ts';
import { workCommand } from '../../api/command-line/work.ts';
import { parse } from 'yaml';
import { ARCHIVE_PORT } from '../../api/server/ports.ts';

const FOLDER = fileURLToPath(new URL('../../api/packaging/', import.meta.url));
const UNIT = readFileSync(`${FOLDER}cinderlane.service`, 'utf8');
const WORKER = readFileSync(`${FOLDER}cinderlane-worker@.service`, 'utf8');
const PAGES = readFileSync(`${FOLDER}cinderlane-archive.service`, 'utf8');
const COMPOSE = parse(readFileSync(`${FOLDER}archive-compose.yml`, 'utf8')) as Compose;
const CONTAINER = readFileSync(`${FOLDER}Containerfile`, 'utf8');
const hasSystemd = spawnSync('systemd-analyze', ['--version']).status === 0;

interface Compose {
  services: Record<
    string,
    { command: string[]; volumes?: string[]; secrets?: string[]; depends_on?: string[]; ports?: string[] }
  >;
  volumes: object;
  secrets: object;
}

/** Options of `serve` that a line names, without their dashes. */
const optionsIn = (line: string) => [...line.matchAll(/--([a-z-]+)/g)].map((match) => match[1]);

describe('the service', () => {
  test.skipIf(!hasSystemd).each([
    ['cinderlane.service', UNIT],
    ['cinderlane-worker@1.service', WORKER.replace('EnvironmentFile=', 'EnvironmentFile=-')],
    ['cinderlane-archive.service', PAGES.replace('EnvironmentFile=', 'EnvironmentFile=-')],
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

  test("of an archive's pages passes only an action and options that `archive` has", () => {
    const started = /^ExecStart=\S+ (.*)$/m.exec(PAGES)![1];
    expect(started.split(' ').slice(0, 2)).toEqual([archiveCommand.name, 'serve']);
    expect(archiveCommand.operands!.split('|')).toContain('serve');
    expect(optionsIn(started)).toEqual(['data']);
    for (const option of optionsIn(started)) expect(archiveCommand.options).toHaveProperty(option);
    const suggested = /CINDERLANE_SERVE=--([a-z]+)/.exec(PAGES)![1];
    expect(archiveCommand.options).toHaveProperty(suggested);
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

  test('of an archive, its workers and its pages starts commands that there are, with volumes and secrets that it names', () => {
    const { services, volumes, secrets } = COMPOSE;
    expect(Object.keys(services).sort()).toEqual(['archive', 'pages', 'worker']);
    expect(services.worker.command).toEqual([workCommand.name]);
    const [word, action, ...words] = services.pages.command;
    expect([word, action]).toEqual([archiveCommand.name, 'serve']);
    for (const option of optionsIn(words.join(' '))) expect(archiveCommand.options).toHaveProperty(option);
    const own = (list: string[] = []) =>
      list.map((entry) => entry.split(':')[0]).filter((name) => !name.startsWith('.'));
    for (const service of Object.values(services)) {
      for (const name of own(service.volumes)) expect(volumes).toHaveProperty(name);
      for (const name of service.secrets ?? []) expect(secrets).toHaveProperty(name);
      for (const name of service.depends_on ?? []) expect(services).toHaveProperty(name);
    }
    // The port that is let out is the one that is listened on.
    expect(services.pages.ports).toEqual([`127.0.0.1:${ARCHIVE_PORT}:${ARCHIVE_PORT}`]);
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
