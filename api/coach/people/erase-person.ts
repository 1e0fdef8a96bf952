import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fault, FaultError } from '../../../shared/fault.ts';
import type { EraseReceipt } from '../../../shared/schemas/coach/erase-receipt.ts';
import { captureDataFolder, CaptureFolder } from '../../capture/recording/capture-folder.ts';
import { forgetWearer } from '../../capture/sensors/sensor-places.ts';
import { getAthlete } from '../../store/athletes.ts';
import { rememberIds } from '../../store/fresh-id.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { placesOfName } from './places-of-name.ts';

/** Stops what works on a person's data, so that nothing new is stored behind the erasure's back. */
export type StopWorkOn = (athlete_id: number) => Promise<void>;

/**
 * Erases everything kept about one person for good. The order: the name is checked, the erasure is noted (from here on it is resumed
 * at every start until it is done), that person's imports and captures are stopped, rows and files are deleted, the database file is
 * written anew and its log emptied with the answer checked. For a large database that takes some seconds, in which the server waits.
 * @param name must be the athlete's name, typed by hand: this cannot be undone
 * @returns where the name still stands: other people's notes, and what lies outside of the database
 * @throws FaultError ERASE_NAME_DIFFERS, ATHLETE_NOT_FOUND, ERASE_UNFINISHED
 */
export async function erasePerson(
  store: Store,
  athlete_id: number,
  name: string,
  stopWork: StopWorkOn = async () => {},
): Promise<EraseReceipt> {
  const athlete = getAthlete(store, athlete_id, true);
  if (name.trim() !== athlete.name.trim()) {
    throw new FaultError(
      fault('ERASE_NAME_DIFFERS', { typed: name, name: athlete.name }, { athlete_id, field: 'name' }),
    );
  }
  store
    .prepare('INSERT OR IGNORE INTO erasures (athlete_id, asked_utc, created_utc, uuid) VALUES (?, ?, ?, ?)')
    .run(athlete_id, nowUtc(), athlete.created_utc, athlete.uuid);
  await stopWork(athlete_id);
  const exported = store
    .prepare('SELECT count(*) AS n FROM research_export_athletes WHERE athlete_id = ?')
    .get(athlete_id) as { n: number };
  finishErasure(store, athlete_id);
  return { erased_utc: nowUtc(), still_named_in: placesOfName(store, athlete.name.trim()), exports: exported.n };
}

/** Erasures that a kill or a power cut interrupted, taken up again. To be called before anything else works on the store. */
export function resumeErasures(store: Store): void {
  const open = store.prepare('SELECT athlete_id FROM erasures WHERE done_utc IS NULL').all() as {
    athlete_id: number;
  }[];
  for (const { athlete_id } of open) finishErasure(store, athlete_id);
}

function finishErasure(store: Store, athlete_id: number): void {
  // Deleted content is overwritten at once, so that a kill before the file is written anew leaves no name in it.
  store.database.pragma('secure_delete = ON');
  store.transaction(() => {
    rememberIds(store);
    deleteRows(store, athlete_id);
  });
  forgetWearer(store, athlete_id);
  const captures = join(captureDataFolder(store), 'captures');
  if (existsSync(captures)) new CaptureFolder(captures).erasePerson(athlete_id);
  // Deleted rows, and older versions of rows changed long ago, live on in unused pages until the file is written anew.
  store.database.exec('VACUUM');
  emptyLog(store, athlete_id);
  store.prepare('UPDATE erasures SET done_utc = ? WHERE athlete_id = ?').run(nowUtc(), athlete_id);
  emptyLog(store, athlete_id);
}

function deleteRows(store: Store, athlete_id: number): void {
  const own = { id: athlete_id };
  store.prepare('UPDATE repetitions SET analysis_id = NULL WHERE athlete_id = @id').run(own);
  store
    .prepare(
      `DELETE FROM sessions WHERE (athlete_id = @id OR session_id IN (SELECT session_id FROM repetitions WHERE athlete_id = @id))
           AND session_id NOT IN (SELECT session_id FROM repetitions WHERE athlete_id != @id)
           AND session_id NOT IN (SELECT session_id FROM session_athletes WHERE athlete_id != @id)
           AND group_id IS NULL`,
    )
    .run(own);
  store.prepare('DELETE FROM imports WHERE athlete_id = @id').run(own);
  store.prepare('DELETE FROM athletes WHERE athlete_id = @id').run(own);
  // A file that is no longer any recording's and waits in no import was this person's.
  store
    .prepare(
      `DELETE FROM raw_files WHERE raw_sha256 IS NOT NULL
           AND raw_file_id NOT IN (SELECT raw_file_id FROM recordings WHERE raw_file_id IS NOT NULL)
           AND raw_file_id NOT IN (SELECT raw_file_id FROM import_files)`,
    )
    .run();
}

/** @throws FaultError ERASE_UNFINISHED while another program reads the log: it is then emptied at the next start */
function emptyLog(store: Store, athlete_id: number): void {
  for (let tries = 0; tries < 5; tries++) {
    const [{ busy }] = store.database.pragma('wal_checkpoint(TRUNCATE)') as { busy: number }[];
    if (busy === 0) return;
  }
  throw new FaultError(fault('ERASE_UNFINISHED', {}, { athlete_id }));
}
