import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WorkerPool } from '../../api/measuring/jobs/worker-pool.ts';
import { startServer } from '../../api/server/server.ts';
import { Store } from '../../api/store/store.ts';
import { FaultError } from '../../shared/fault.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, sendForm } from '../helpers/test-api.ts';

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-machine-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function codeOf(work: () => unknown): string {
  try {
    work();
    return 'nothing thrown';
  } catch (error) {
    return error instanceof FaultError ? error.code : String(error);
  }
}

describe('a database', () => {
  it('that is none is refused in words, and left as it is', () => {
    const file = join(folder, 'letter.sqlite');
    writeFileSync(file, 'Dear coach, '.repeat(1000));
    expect(codeOf(() => Store.open(file))).toBe('DATABASE_UNREADABLE');
  });

  it('of a newer version is refused before anything is changed', () => {
    const file = join(folder, 'newer.sqlite');
    const store = Store.open(file);
    store.prepare("INSERT INTO migrations VALUES ('999-tomorrow.sql', '')").run();
    store.close();
    expect(codeOf(() => Store.open(file))).toBe('DATABASE_NEWER');
  });

  it('that is full refuses an import, keeps what was there, and takes it once there is room', async () => {
    const api = await openTestApi();
    const place = await api.athleteAndSession();
    const form = { ...place, mounting: 'foot', course: '30m' };
    const { left } = sprintFiles();
    const pages = api.store.database.pragma('page_count', { simple: true }) as number;
    api.store.database.pragma(`max_page_count = ${pages + 4}`);
    const full = await sendForm(api.app, form, { left });
    expect([full.status, (full.body as unknown as { code: string }).code]).toEqual([507, 'DISK_FULL']);
    expect(api.store.prepare('SELECT count(*) AS n FROM raw_files').get()).toEqual({ n: 0 });
    expect((await api.call('GET', '/athletes')).body.items.length).toBe(1);
    api.store.database.pragma(`max_page_count = ${pages + 100_000}`);
    expect((await api.import(form, { left })).body.state).toBe('done');
    await api.close();
  });
});

describe('a worker thread', () => {
  it('that dies takes its task with it and nothing else', async () => {
    const pool = new WorkerPool(join(folder, 'not-there.sqlite'), 1);
    const task = { kind: 'analyse' as const, repetition_id: 1, settings: null };
    for (let i = 0; i < 2; i++) {
      await expect(pool.run(task)).rejects.toMatchObject({ code: 'WORKER_FAILED' });
    }
    await pool.close();
  });

  it('that is told to stop gives its task up at once', async () => {
    const file = join(folder, 'stop.sqlite');
    Store.open(file).close();
    const pool = new WorkerPool(file, 1);
    const abort = new AbortController();
    const task = {
      kind: 'read' as const,
      files: [],
      mounting: 'foot' as const,
      rate_hz: null,
      layout: null,
      course: {} as never,
      conditions: {} as never,
    };
    const work = pool.run(task, undefined, abort.signal);
    abort.abort();
    await expect(work).rejects.toMatchObject({ code: 'TASK_CANCELLED' });
    await pool.close();
  });
});

describe('a connection', () => {
  it('that breaks off in the middle of an upload leaves nothing behind', async () => {
    const server = await startServer({ data_folder: join(folder, 'broken'), port: 0 });
    const { hostname, port } = new URL(server.address);
    const socket = connect(Number(port), hostname);
    const head = [
      'POST /api/imports HTTP/1.1',
      `Host: ${hostname}:${port}`,
      'Content-Type: multipart/form-data; boundary=x',
      'Content-Length: 50000000',
      '',
      '--x',
      'Content-Disposition: form-data; name="left"; filename="left.csv"',
      '',
      '',
    ].join('\r\n');
    socket.write(head);
    socket.write('0.001,1,2,3,4,5,6\n'.repeat(200_000));
    const rawFiles = () => (server.store.prepare('SELECT count(*) AS n FROM raw_files').get() as { n: number }).n;
    const until = async (wanted: number) => {
      for (let i = 0; i < 200 && rawFiles() !== wanted; i++) await new Promise((resolve) => setTimeout(resolve, 25));
      return rawFiles();
    };
    expect(await until(1)).toBe(1);
    socket.destroy();
    expect(await until(0)).toBe(0);
    await server.close();
  });
});
