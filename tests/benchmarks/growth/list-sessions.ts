import { openTestApi } from '../../helpers/test-api.ts';
import { measured } from './measured.ts';

const TIMES = 100;
const PAGE = 100;

/** @param sessions in the store, two repetitions each */
export async function measure(sessions: number) {
  const api = await openTestApi();
  const { athlete_id, session_id } = await api.athleteAndSession();
  await api.call('POST', '/repetitions', { session_id, athlete_id });
  const { database } = api.store;
  api.store.transaction(() => {
    const add = database.prepare(
      `INSERT INTO sessions (session_id, session_date, title, notes, created_utc, updated_utc)
       SELECT ?, date('2026-03-02', ?), title, notes, created_utc, updated_utc FROM sessions WHERE session_id = 1`,
    );
    const run = database.prepare(
      `INSERT INTO repetitions (session_id, athlete_id, order_number, splits, state, created_utc, updated_utc)
       SELECT ?, athlete_id, order_number, splits, state, created_utc, updated_utc FROM repetitions WHERE repetition_id = 1`,
    );
    for (let id = 2; id <= sessions; id++) {
      add.run(id, `-${id % 3650} days`);
      for (let k = 0; k < 2; k++) run.run(id);
    }
  });
  const ask = async (offset: number) => {
    const { status, body } = await api.call('GET', `/sessions?limit=${PAGE}&offset=${offset}`);
    if (status !== 200 || body.total !== sessions || body.items.length !== PAGE) throw new Error(`answered ${status}`);
  };
  await ask(0);
  try {
    // Pages from the newest to the oldest.
    return await measured(async () => {
      for (let k = 0; k < TIMES; k++) await ask(Math.floor((k * (sessions - PAGE)) / TIMES));
    });
  } finally {
    await api.close();
  }
}
