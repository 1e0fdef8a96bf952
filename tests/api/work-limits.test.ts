/** Work that never ends, that ends the program, or that nobody waits for any more. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ByteSource } from '../../ingest/csv/text/byte-source.ts';
import { Jobs } from '../../api/measuring/jobs/jobs.ts';
import { WorkerPool } from '../../api/measuring/jobs/worker-pool.ts';
import { createAthlete } from '../../api/store/athletes.ts';
import { keepDiskFloor } from '../../api/store/disk-floor.ts';
import { createImport, getImport, markImport, triesOf } from '../../api/store/imports.ts';
import { RawFileWriter } from '../../api/store/raw-files.ts';
import { createSession } from '../../api/store/sessions.ts';
import { Store } from '../../api/store/store.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-limits-'));
const sprint = Buffer.from(sprintFiles().left);
const preview = {
  kind: 'preview' as const,
  file_name: 'left.csv',
  bytes: sprint,
  part: false,
  side: 'left' as const,
  mounting: 'foot' as const,
  rate_hz: null,
  layout: null,
};
let store: Store;

beforeAll(() => {
  store = Store.open(join(folder, 'cinderlane.sqlite'));
});
afterAll(() => {
  store.close();
  rmSync(folder, { recursive: true, force: true });
});

async function newImport(rows: number): Promise<number> {
  const { athlete_id } = createAthlete(store, { name: 'Ann' });
  const { session_id } = createSession(store, { session_date: '2026-03-02' });
  const writer = new RawFileWriter(store, 'left.csv');
  await writer.append(Buffer.from(sprint.toString().split('\n').slice(0, rows).join('\n')));
  const { raw_file_id } = await writer.finish();
  const fields = { athlete_id, session_id, mounting: 'foot' as const };
  return createImport(store, fields, [{ side: 'left', raw_file_id, file_name: 'left.csv' }]);
}

describe('a pool of threads', () => {
  it('ends a task at its limit, and does the next one', { timeout: 60_000 }, async () => {
    let limit_s = 0.001;
    const pool = new WorkerPool(store.file, 1, { limit_s: () => limit_s });
    await expect(pool.run(preview)).rejects.toMatchObject({ code: 'TASK_TOO_LONG', where: { limit_s: 0.001 } });
    limit_s = 60;
    await expect(pool.run(preview)).resolves.toMatchObject({ fault: null });
    await pool.close();
  });

  it('lets go a task that is cancelled while it runs, and refuses more than may wait', {
    timeout: 60_000,
  }, async () => {
    const pool = new WorkerPool(store.file, 1, { most_waiting: 1 });
    const abort = new AbortController();
    const running = pool.run(preview, undefined, abort.signal);
    const waiting = pool.run(preview);
    await expect(pool.run(preview)).rejects.toMatchObject({ code: 'SERVER_BUSY' });
    abort.abort();
    await expect(running).rejects.toMatchObject({ code: 'TASK_CANCELLED' });
    await expect(waiting).resolves.toMatchObject({ fault: null });
    await pool.close();
  });
});

describe('an import', () => {
  it('during which the program ended twice is told as failed, and can be started by hand', {
    timeout: 60_000,
  }, async () => {
    const [once, twice] = [await newImport(3000), await newImport(3001)];
    // What a killed program leaves: the count was written when a thread took the import up.
    markImport(store, once, { state: 'working', tries: 1 });
    markImport(store, twice, { state: 'working', tries: 2 });
    const jobs = new Jobs(store, 1);
    jobs.recover();
    expect(getImport(store, twice)).toMatchObject({ state: 'failed', fault: { code: 'IMPORT_GIVEN_UP' } });
    await jobs.startImport(twice);
    expect([once, twice].map((id) => getImport(store, id).state)).toEqual(['done', 'done']);
    await jobs.close();
  });

  it('is counted as tried when its work begins, and not when the server was stopped in good order', {
    timeout: 60_000,
  }, async () => {
    const id = await newImport(3002);
    const jobs = new Jobs(store, 1);
    let tries = 0;
    const begun = new Promise<void>((resolve) => {
      jobs.follow(id, () => {
        tries = Math.max(tries, triesOf(store, id));
        resolve();
      });
    });
    void jobs.startImport(id);
    await begun;
    await jobs.close();
    expect(tries).toBe(1);
    expect(triesOf(store, id)).toBe(getImport(store, id).state === 'done' ? 1 : 0);
  });
});

describe('room on the disk', () => {
  it('below the floor is told with what is free', () => {
    keepDiskFloor(folder, 1);
    expect(() => keepDiskFloor(folder, 1e18)).toThrow(/DISK_FULL/);
  });
});

describe('gzip files', () => {
  it('that unpack to hundreds of times their size are refused', { timeout: 60_000 }, async () => {
    const packed = gzipSync(Buffer.alloc(1 << 20, '0.5,'));
    async function* bomb() {
      for (let n = 0; n < 300; n++) yield packed;
    }
    const read = async () => {
      let bytes = 0;
      for await (const piece of new ByteSource(bomb(), { file_name: 'a.csv.gz' }).unpacked()) bytes += piece.length;
      return bytes;
    };
    await expect(read()).rejects.toMatchObject({ code: 'UPLOAD_TOO_LARGE' });
  });
});
