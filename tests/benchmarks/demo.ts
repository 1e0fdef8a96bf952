/**
 * How soon the demo can be used: from the start of a server on an empty folder to the first result, to one result of every athlete of
 * the latest session, and to all of that session. Run it on a quiet machine: `npm run bench:demo`.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { FieldView } from '../../shared/schemas/coach/field-view.ts';
import type { DemoState } from '../../shared/schemas/demo.ts';
import type { SessionList } from '../../shared/schemas/session.ts';
import { processorSeconds } from './process-figures.ts';

const COMMAND = fileURLToPath(new URL('../../api/command-line/cinderlane.mjs', import.meta.url));
const TARGET_S = { latest: 5, all: 15 };

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-demo-'));
const started = performance.now();
const server = spawn(process.execPath, [COMMAND, 'serve', '--demo', '--data', folder, '--port', '0'], {
  stdio: ['ignore', 'pipe', 'inherit'],
});
const seconds = () => (performance.now() - started) / 1000;
try {
  const address = await new Promise<string>((resolve, reject) => {
    let text = '';
    server.stdout.on('data', (chunk: Buffer) => {
      text += chunk;
      const found = /is at (http\S+)/.exec(text);
      if (found) resolve(found[1]);
    });
    server.once('exit', () => reject(new Error(`the server ended: ${text}`)));
  });
  const ask = async <T>(path: string) => (await (await fetch(`${address}/api${path}`)).json()) as T;
  process.stdout.write(`the server answers: ${seconds().toFixed(1)} s\n`);

  const results = async () => {
    const { items } = await ask<SessionList>('/sessions');
    const latest = [...items].sort((a, b) => b.session_date.localeCompare(a.session_date))[0];
    if (!latest) return null;
    const { athletes, totals } = await ask<FieldView>(`/coach/sessions/${latest.session_id}/field`);
    return {
      done: athletes.map((athlete) => athlete.judgements.length > 0),
      analysed: latest.analysed_count,
      planned: totals?.repetitions ?? 0,
      athletes: athletes.length,
    };
  };
  const until = async (what: string, reached: (now: NonNullable<Awaited<ReturnType<typeof results>>>) => boolean) => {
    for (;;) {
      const now = await results();
      if (now && now.athletes > 0 && reached(now)) break;
      await wait(100);
    }
    process.stdout.write(`${what}: ${seconds().toFixed(1)} s\n`);
    return seconds();
  };
  await until('first result of the latest session', ({ done }) => done.some(Boolean));
  const usable_s = await until('a result of every athlete of the latest session', ({ done }) => done.every(Boolean));
  await until('half of the latest session', ({ analysed, planned, athletes }) => analysed >= (planned * athletes) / 2);
  for (let loading: unknown = true; loading !== null; ) {
    await wait(100);
    loading = (await ask<DemoState>('/demo')).loading;
  }
  const all_s = seconds();
  const used = processorSeconds(server.pid!);
  process.stdout.write(`all of the club: ${all_s.toFixed(1)} s, ${used.toFixed(1)} s of processors\n`);
  const met = usable_s <= TARGET_S.latest && all_s <= TARGET_S.all;
  process.stdout.write(
    `wanted: the latest session in ${TARGET_S.latest} s, all in ${TARGET_S.all} s: ${met ? 'met' : 'NOT MET'}\n`,
  );
  if (!met) process.exitCode = 1;
} finally {
  server.kill();
  rmSync(folder, { recursive: true, force: true });
}
