import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { runCommand } from './run-command.ts';

/**
 * Golden folders: each holds a command line and how it must end, with its own small files. A new case is a new folder.
 * `{made}` is a folder of files made from an invented sprint, `{case}` the folder itself, `{out}` a folder that is not there.
 */
interface Case {
  title: string;
  args: string[];
  exit_code: number;
  stdout?: string[];
  stderr?: string[];
  /** Files in `{out}` afterwards; [] where the folder must not even be made. */
  files?: string[];
}

const CASES = fileURLToPath(new URL('./cases/', import.meta.url));
let made = '';

beforeAll(() => {
  made = mkdtempSync(join(tmpdir(), 'cinderlane-cases-'));
  const { left, right } = sprintFiles();
  const rows = left.trim().split('\n');
  const write = (name: string, text: string | Uint8Array) => writeFileSync(join(made, name), text);
  write('left.csv', left);
  write('right.csv', right);
  write('left.csv.gz', gzipSync(left));
  write('left-25hz.csv', rows.filter((_, i) => i === 0 || i % 20 === 1).join('\n'));
  write('left-cut.csv', left.slice(0, Math.floor(0.8 * left.length)).replace(/,[^,\n]*$/, ',-0.'));
  write(
    'left-no-z.csv',
    rows
      .map((row) =>
        row
          .split(',')
          .filter((_, i) => i !== 3)
          .join(','),
      )
      .join('\n'),
  );
  // Both feet as loggers put them into one file; the sensors share their clock.
  const cells = (text: string) =>
    text
      .trim()
      .split('\n')
      .map((row) => row.split(','));
  const [l, r] = [cells(left), cells(right)];
  const sided = (side: string) => l[0].slice(1).map((name) => `${side}_${name}`);
  const both = (names: string[]) => [names, ...l.slice(1).map((row, i) => [...row, ...(r[i + 1] ?? row).slice(1)])];
  const text = (rows: string[][]) => rows.map((row) => row.join(',')).join('\n');
  write('both.csv', text(both([l[0][0], ...sided('left'), ...sided('right')])));
  write('both-titled.csv', `,Sensor A,,,,,,Sensor B,,,,,\n${text(both([...l[0], ...l[0].slice(1)]))}`);
  write('sides.json', '{"sensor_sides":["left","right"]}');
  const inTurn = l.slice(1).flatMap((row, i) => [
    ['0', ...row],
    ['1', ...(r[i + 1] ?? row)],
  ]);
  write('both-rows.csv', text([['sensor', ...l[0]], ...inTurn]));
  write('left-standing.csv', rows.slice(0, 800).join('\n'));
});
afterAll(() => rmSync(made, { recursive: true, force: true }));

describe('command line', () => {
  for (const name of readdirSync(CASES)) {
    const wanted = JSON.parse(readFileSync(join(CASES, name, 'case.json'), 'utf8')) as Case;
    it(`${name}: ${wanted.title}`, async () => {
      const out = join(made, `out-${name}`);
      const places: Record<string, string> = { made, case: join(CASES, name), out };
      const words = wanted.args.map((word) => word.replace(/\{(\w+)\}/, (_, place: string) => places[place]));
      const end = await runCommand(words);
      expect(end.exit_code, end.stderr).toBe(wanted.exit_code);
      for (const text of wanted.stdout ?? []) expect(end.stdout).toContain(text);
      for (const text of wanted.stderr ?? []) expect(end.stderr).toContain(text);
      if (wanted.exit_code !== 0 && wanted.args.length > 0) expect(end.stderr.split('\n').length).toBeGreaterThan(1);
      if (wanted.files) expect(existsSync(out) ? readdirSync(out).sort() : []).toEqual(wanted.files);
    });
  }
});
