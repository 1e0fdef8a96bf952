import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { readRawFile } from '../../api/store/raw-files.ts';
import { Store } from '../../api/store/store.ts';
import { uniform } from '../helpers/random.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi } from '../helpers/test-api.ts';

/** More for a long run by hand. */
const ROUNDS = Number(process.env.CINDERLANE_KILL_ROUNDS ?? 4);
const next = uniform(3);
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-kill-'));
const children: ChildProcess[] = [];

afterAll(() => {
  for (const child of children) child.kill('SIGKILL');
  rmSync(folder, { recursive: true, force: true });
});

/** Starts a server process on the folder. */
async function startProcess(): Promise<{ child: ChildProcess; address: string }> {
  const script = fileURLToPath(new URL('./kill-server.mjs', import.meta.url));
  const child = spawn(process.execPath, [script, folder], { stdio: ['ignore', 'pipe', 'inherit'] });
  children.push(child);
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout!.once('data', (bytes: Buffer) => resolve(bytes.toString().trim()));
    child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
  });
  return { child, address };
}

async function post(address: string, path: string, body: object): Promise<Record<string, number>> {
  const answer = await fetch(`${address}/api${path}`, {
    method: 'POST',
    body: body instanceof FormData ? body : JSON.stringify(body),
    headers: body instanceof FormData ? {} : { 'content-type': 'application/json' },
  });
  return (await answer.json()) as Record<string, number>;
}

/** A file of its own content each time: the same sprint with another last row. */
function form(place: { athlete_id: number; session_id: number }, text: string): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({ ...place, mounting: 'foot', course: '30m' }))
    data.set(name, String(value));
  data.set('left', new Blob([text]), 'left.csv');
  return data;
}

describe('a server killed while it stores', () => {
  it('loses nothing it has acknowledged, keeps a sound database, and finishes the work after the next start, or when asked where it was killed twice', {
    timeout: 240_000,
  }, async () => {
    const acknowledged: { import_id: number; sha256: string }[] = [];
    const acknowledgedNames: string[] = [];
    // A short piece, so that much is written, not computed.
    const left = `${sprintFiles().left.split('\n').slice(0, 1500).join('\n')}\n`;
    let sent = 0;
    for (let round = 0; round < ROUNDS; round++) {
      const { child, address } = await startProcess();
      const athlete = await post(address, '/athletes', { name: `Round ${round}` });
      const session = await post(address, '/sessions', { session_date: '2026-03-02' });
      const place = { athlete_id: athlete.athlete_id, session_id: session.session_id };
      const killed = new Promise((resolve) => child.once('exit', resolve));
      const enough = { imports: acknowledged.length + 2, groups: acknowledgedNames.length + 2 };
      const killSoon = () => {
        if (acknowledged.length < enough.imports || acknowledgedNames.length < enough.groups) return;
        setTimeout(() => child.kill('SIGKILL'), 100 * next());
      };
      let alive = true;
      void killed.then(() => {
        alive = false;
      });
      const writers = [
        async () => {
          while (alive) {
            const text = `${left}${(3 + 0.002 * sent++).toFixed(4)},0,0,1,0,0,0\n`;
            const sha256 = createHash('sha256').update(text).digest('hex');
            const { import_id } = await post(address, '/imports', form(place, text));
            if (import_id) acknowledged.push({ import_id, sha256 });
            killSoon();
          }
        },
        async () => {
          while (alive) {
            const name = `Group ${sent++}`;
            const made = await post(address, '/groups', { name });
            if (made.group_id) acknowledgedNames.push(name);
            killSoon();
          }
        },
      ];
      await Promise.all(writers.map((write) => write().catch(() => {})));
      await killed;
      const store = Store.open(join(folder, 'cinderlane.sqlite'));
      expect(store.database.pragma('integrity_check', { simple: true })).toBe('ok');
      expect(store.database.pragma('foreign_key_check')).toEqual([]);
      store.close();
    }
    expect(acknowledged.length).toBeGreaterThan(ROUNDS);
    expect(acknowledgedNames.length).toBeGreaterThan(ROUNDS);

    const api = await openTestApi(folder);
    const names = (await api.call('GET', '/groups')).body.items.map((group: { name: string }) => group.name);
    expect(acknowledgedNames.filter((name) => !names.includes(name))).toEqual([]);
    for (const { import_id, sha256 } of acknowledged) {
      await api.app.inject({ method: 'GET', url: `/api/imports/${import_id}/events` });
      let { body } = await api.call('GET', `/imports/${import_id}`);
      if (body.state === 'failed') {
        // Killed twice at the same one: it is not begun a third time by itself, and finished when somebody asks.
        expect(body.fault.code).toBe('IMPORT_GIVEN_UP');
        expect((await api.call('POST', `/imports/${import_id}/retry`, {})).status).toBe(202);
        await api.app.inject({ method: 'GET', url: `/api/imports/${import_id}/events` });
        ({ body } = await api.call('GET', `/imports/${import_id}`));
      }
      expect(body.state).toBe('done');
      expect(body.files[0].raw_sha256).toBe(sha256);
      expect(body.repetition_ids.length).toBe(1);
      const file = api.store.first(
        api.store.query.selectFrom('import_files').select('raw_file_id').where('import_id', '=', import_id),
      )!;
      const hash = createHash('sha256');
      for await (const chunk of readRawFile(api.store, file.raw_file_id)) hash.update(chunk);
      expect(hash.digest('hex')).toBe(sha256);
    }
    // Nothing half-stored: every recording has its repetition, every file is whole.
    const orphans = api.store
      .prepare(
        'SELECT count(*) AS n FROM recordings WHERE recording_id NOT IN (SELECT recording_id FROM repetition_recordings)',
      )
      .get();
    expect(orphans).toEqual({ n: 0 });
    expect(api.store.prepare('SELECT count(*) AS n FROM raw_files WHERE raw_sha256 IS NULL').get()).toEqual({ n: 0 });
    await api.close();
  });
});
