import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { FaultError } from '../../../shared/fault.ts';
import { captureDataFolder, CaptureFolder } from '../../capture/recording/capture-folder.ts';
import { forgetWearer } from '../../capture/sensors/sensor-places.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';

/**
 * Erases everything kept about one person for good: rows, recordings, raw files that nobody else's recordings rest on,
 * and sessions that held only this person; what their sensors sent live. Then the database file is written anew and its log emptied, so that no byte of it
 * stays in them; for a large database that takes some seconds, in which the server waits. Backups made before are the user's to delete.
 * @param name must be the athlete's name, typed by hand: this cannot be undone
 * @throws FaultError ERASE_NAME_DIFFERS, ATHLETE_NOT_FOUND
 */
export function erasePerson(store: Store, athlete_id: number, name: string): void {
  const athlete = getAthlete(store, athlete_id, true);
  if (name.trim() !== athlete.name.trim()) {
    throw new FaultError({
      code: 'ERASE_NAME_DIFFERS',
      message: `The name typed is "${name}", the athlete's is "${athlete.name}". Nothing was erased.`,
      where: { athlete_id, field: 'name' },
      hint: 'Type the name exactly as it is shown. Erasing cannot be undone; deleting can.',
    });
  }
  store.transaction(() => {
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
  });
  forgetWearer(store, athlete_id);
  const captures = join(captureDataFolder(store), 'captures');
  if (existsSync(captures)) new CaptureFolder(captures).erasePerson(athlete_id);
  // Deleted rows, and older versions of rows changed long ago, live on in unused pages until the file is written anew.
  store.database.exec('VACUUM');
  store.database.pragma('wal_checkpoint(TRUNCATE)');
}
