import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type BackupSchedule, backUpWhenDue } from '../../../api/backup/backup-schedule.ts';
import { backUp } from '../../../api/backup/make-backup.ts';
import { restoreBackup } from '../../../api/backup/restore-backup.ts';
import { addDevice, revokeDevice } from '../../../api/access/devices.ts';
import { erasePerson, resumeErasures } from '../../../api/coach/people/erase-person.ts';
import { lockFolder } from '../../../api/server/folder-lock.ts';
import { createAthlete, listAthletes } from '../../../api/store/athletes.ts';
import { startServer } from '../../../api/server/server.ts';
import { Store } from '../../../api/store/store.ts';
import { runCommand } from '../command-line/run-command.ts';

const WORDS = 'four words picked at random';
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-restore-'));
  mkdirSync(join(folder, 'data'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));
const path = (name: string) => join(folder, name);
const database = () => path('data/cinderlane.sqlite');

function inStore<Result>(work: (store: Store) => Result): Result {
  const store = Store.open(database());
  try {
    return work(store);
  } finally {
    store.close();
  }
}
const names = () => inStore((store) => listAthletes(store).map(({ name }) => name));

describe('a backup', () => {
  it('sealed by one command and restored by one command is the database as it was', async () => {
    inStore((store) => createAthlete(store, { name: 'Rosa Quill' }));
    writeFileSync(path('words'), `${WORDS}\n`);
    const sealed = ['--passphrase-file', path('words'), '--data', path('data')];
    const made = await runCommand(['backup', '--out', path('copy.sealed'), ...sealed]);
    expect([made.exit_code, made.stdout]).toEqual([0, expect.stringContaining('sealed and checked')]);
    expect(readFileSync(path('copy.sealed')).includes('Rosa')).toBe(false);
    expect(statSync(path('copy.sealed')).mode & 0o777).toBe(0o600);
    expect(readdirSync(path('data')).filter((name) => name.startsWith('backup-'))).toEqual([]);

    inStore((store) => createAthlete(store, { name: 'Later' }));
    const restored = await runCommand(['restore', '--from', path('copy.sealed'), ...sealed]);
    expect([restored.exit_code, restored.stderr]).toEqual([0, '']);
    expect(names()).toEqual(['Rosa Quill']);
    expect(statSync(database()).mode & 0o777).toBe(0o600);
    const kept = readdirSync(path('data')).find((name) => name.startsWith('cinderlane-before-'))!;
    const former = Store.open(path(`data/${kept}`));
    expect(listAthletes(former).map(({ name }) => name)).toEqual(['Later', 'Rosa Quill']);
    former.close();
  });

  it('that does not open, or while a server holds the folder, changes nothing', async () => {
    inStore((store) => createAthlete(store, { name: 'Rosa Quill' }));
    await backUp(database(), path('copy.sealed'), WORDS);
    writeFileSync(path('broken'), readFileSync(path('copy.sealed')).subarray(0, 5000));
    writeFileSync(path('text'), 'no database');
    for (const [file, words] of [
      ['copy.sealed', null],
      ['copy.sealed', 'other words'],
      ['broken', WORDS],
      ['text', null],
    ] as const)
      expect(() => restoreBackup(path(file), path('data'), words)).toThrow(/RESTORE_FAILED/);
    const giveBack = lockFolder(path('data'))!;
    expect(() => restoreBackup(path('copy.sealed'), path('data'), WORDS)).toThrow(/SERVER_RUNNING/);
    giveBack();
    expect(names()).toEqual(['Rosa Quill']);
  });

  it('brings back nobody who was erased since, no device revoked since, and no identifier given since', async () => {
    const { gone, device_id } = inStore((store) => {
      createAthlete(store, { name: 'Rosa Quill' });
      return {
        gone: createAthlete(store, { name: 'Otto Gone' }).athlete_id,
        device_id: addDevice(store, 'phone', 'coach').device.device_id,
      };
    });
    await backUp(database(), path('copy.sqlite'));
    const store = Store.open(database());
    const later = createAthlete(store, { name: 'Later' }).athlete_id;
    revokeDevice(store, device_id);
    await erasePerson(store, gone, 'Otto Gone');
    store.close();

    restoreBackup(path('copy.sqlite'), path('data'), null);
    const back = Store.open(database());
    resumeErasures(back);
    expect(listAthletes(back).map(({ name }) => name)).toEqual(['Rosa Quill']);
    expect(readFileSync(database()).includes('Otto')).toBe(false);
    expect(back.prepare('SELECT revoked_utc IS NOT NULL AS revoked FROM devices').all()).toEqual([{ revoked: 1 }]);
    expect(createAthlete(back, { name: 'Newest' }).athlete_id).toBeGreaterThan(later);
    back.close();
  });

  it("of another club erases nobody by another's number", async () => {
    mkdirSync(path('other'));
    const other = Store.open(path('other/cinderlane.sqlite'));
    const { athlete_id } = createAthlete(other, { name: 'Of the other club' });
    other.close();
    await backUp(path('other/cinderlane.sqlite'), path('other.sqlite'));
    const store = Store.open(database());
    // Made later than the other's: the same number, another moment.
    await new Promise((resolve) => setTimeout(resolve, 5));
    const own = createAthlete(store, { name: 'Otto Gone' }).athlete_id;
    expect(own).toBe(athlete_id);
    await erasePerson(store, own, 'Otto Gone');
    store.close();
    restoreBackup(path('other.sqlite'), path('data'), null);
    const back = Store.open(database());
    resumeErasures(back);
    expect(listAthletes(back).map(({ name }) => name)).toEqual(['Of the other club']);
    back.close();
  });
});

describe('packet logs of captures and added descriptions', () => {
  const put = (name: string, bytes: string | Uint8Array) => {
    mkdirSync(join(path('data'), name, '..'), { recursive: true });
    writeFileSync(path(`data/${name}`), bytes);
  };
  const record = (capture_id: string, athlete_id: number) =>
    JSON.stringify({
      format: 'capture/1',
      capture_id,
      kind: 'live',
      state: 'ended',
      handled: [],
      sensors: [{ sensor_id: 'S:1', place: { name: 'S' }, athlete_ids: [athlete_id] }],
    });
  const packets = Uint8Array.from({ length: 3_000_000 }, (_, i) => (i * i) % 251);

  it('come back from a sealed backup byte for byte, on a machine that has none of them', async () => {
    const { athlete_id } = inStore((store) => createAthlete(store, { name: 'Rosa Quill' }));
    put('captures/one/capture.json', record('one', athlete_id));
    put('captures/one/S-1.packets', packets);
    put('captures/two-replay/capture.json', record('two-replay', athlete_id));
    put('stream-descriptions/own.json', '{"id":"own"}');
    put('tls/authority.key', 'secret');
    expect(await backUp(database(), path('copy.sealed'), WORDS)).toBe(3);
    rmSync(path('data'), { recursive: true });
    restoreBackup(path('copy.sealed'), path('data'), WORDS);
    expect(readFileSync(path('data/captures/one/S-1.packets')).equals(packets)).toBe(true);
    expect(readFileSync(path('data/captures/one/capture.json'), 'utf8')).toBe(record('one', athlete_id));
    expect(readFileSync(path('data/stream-descriptions/own.json'), 'utf8')).toBe('{"id":"own"}');
    expect(statSync(path('data/captures/one/S-1.packets')).mode & 0o777).toBe(0o600);
    expect(readdirSync(path('data')).sort()).toEqual([
      'captures',
      'cinderlane.sqlite',
      'lock.sqlite',
      'stream-descriptions',
    ]);
    // The database is again no larger than before, and holds them no longer.
    expect(statSync(database()).size).toBeLessThan(1_500_000);
  });

  it('that lie there already are left as they are; without them the backup is the database alone', async () => {
    const { athlete_id } = inStore((store) => createAthlete(store, { name: 'Rosa Quill' }));
    put('captures/one/capture.json', record('one', athlete_id));
    put('captures/one/S-1.packets', 'as it was');
    await backUp(database(), path('copy.sqlite'));
    put('captures/one/S-1.packets', 'as it was, and more');
    restoreBackup(path('copy.sqlite'), path('data'), null);
    expect(readFileSync(path('data/captures/one/S-1.packets'), 'utf8')).toBe('as it was, and more');
    expect(await backUp(database(), path('small.sqlite'), null, false)).toBe(0);
    expect(readFileSync(path('small.sqlite')).includes('captures/one')).toBe(false);
  });

  it('are put in their place by the start of a server where the restoration was killed, and an erased person stays erased', async () => {
    const { gone, stays } = inStore((store) => ({
      gone: createAthlete(store, { name: 'Otto Gone' }).athlete_id,
      stays: createAthlete(store, { name: 'Rosa Quill' }).athlete_id,
    }));
    put('captures/gone/capture.json', record('gone', gone));
    put('captures/gone/S-1.packets', packets);
    put('captures/stays/capture.json', record('stays', stays));
    put('captures/stays/S-1.packets', packets);
    await backUp(database(), path('copy.sqlite'));
    const store = Store.open(database());
    await erasePerson(store, gone, 'Otto Gone');
    store.close();
    expect(readdirSync(path('data/captures'))).toEqual(['stays']);
    rmSync(path('data/captures'), { recursive: true });
    // As far as a restoration has come when it is killed before the last step.
    restoreBackup(path('copy.sqlite'), path('data'), null, { unpack: () => 0 });
    const server = await startServer({ data_folder: path('data'), port: 0 });
    await server.close();
    expect(readdirSync(path('data/captures'))).toEqual(['stays']);
    expect(names()).toEqual(['Rosa Quill']);
  });
});

describe('scheduled backups', () => {
  it('are made when the newest is old enough, and only as many as asked for are kept', async () => {
    inStore((store) => createAthlete(store, { name: 'Rosa Quill' }));
    const made: string[] = [];
    const schedule: BackupSchedule = {
      folder: path('copies'),
      every_hours: 24,
      keep: 2,
      sealed: false,
      make: (file) => backUp(database(), file),
      tellFailure: (error) => made.push(String(error)),
    };
    const day = (n: number) => new Date(Date.UTC(2026, 10, n, 20));
    for (let n = 1; n <= 4; n++) {
      const file = await backUpWhenDue(schedule, day(n));
      utimesSync(file!, day(n), day(n));
      expect(await backUpWhenDue(schedule, new Date(day(n).getTime() + 3_600_000))).toBeNull();
    }
    writeFileSync(path('copies/of-my-own.sqlite'), '');
    expect(readdirSync(path('copies')).sort()).toEqual([
      'cinderlane-2026-11-03T20-00-00Z.sqlite',
      'cinderlane-2026-11-04T20-00-00Z.sqlite',
      'of-my-own.sqlite',
    ]);
    expect(statSync(path('copies')).mode & 0o777).toBe(0o700);
    expect(made).toEqual([]);
  });
});
