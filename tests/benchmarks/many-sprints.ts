import { columnNames } from '../../api/store/column-names.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';

/** A store that holds one invented sprint of two sensors many times over. @param count of repetitions, each with recordings of its own */
export async function storeManySprints(count: number): Promise<TestApi> {
  const api = await openTestApi();
  const place = await api.athleteAndSession();
  const { left, right } = sprintFiles();
  await api.import({ ...place, mounting: 'foot', effort_percent: 100, course: '30m' }, { left, right });
  multiply(api, count);
  return api;
}

/** Copies the first repetition with its recordings until there are `count` of them. */
function multiply({ store }: TestApi, count: number): void {
  const { database } = store;
  const columnsOf = (table: string, key: string) =>
    columnNames(store, table).filter((name) => name !== key && name !== 'uuid');
  const copy = (table: string, key: string, where: string) => {
    const columns = columnsOf(table, key).join(', ');
    return database.prepare(`INSERT INTO ${table} (${columns}) SELECT ${columns} FROM ${table} WHERE ${where}`);
  };
  const repetition = copy('repetitions', 'repetition_id', 'repetition_id = 1');
  const recording = copy('recordings', 'recording_id', 'recording_id = ?');
  const chunks = database.prepare(
    `INSERT INTO recording_chunks SELECT ?, channel, sequence, first_sample, samples, bytes FROM recording_chunks WHERE recording_id = ?`,
  );
  const link = database.prepare('INSERT INTO repetition_recordings VALUES (?, ?)');
  store.transaction(() => {
    for (let i = 1; i < count; i++) {
      const repetitionId = repetition.run().lastInsertRowid;
      for (const source of [1, 2]) {
        const recordingId = recording.run(source).lastInsertRowid;
        chunks.run(recordingId, source);
        link.run(repetitionId, recordingId);
      }
    }
  });
}
