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
import type { SessionList } from '../../shared/schemas/session.ts';

const COMMAND = fileURLToPath(new URL('../../api/command-line/cinderlane.mjs', import.meta.url));
const TARGET_S = 10;

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
  process.stdout.write(
    `target for a usable latest session: ${TARGET_S} s: ${usable_s <= TARGET_S ? 'met' : 'NOT met'}\n`,
  );
} finally {
  server.kill();
  rmSync(folder, { recursive: true, force: true });
}
