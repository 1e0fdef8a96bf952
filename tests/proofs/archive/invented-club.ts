import { mkdirSync } from 'node:fs';
import { addDays } from '../../../shared/dates.ts';
import { changeConsent } from '../../../api/export/consents.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { columnNames } from '../../../api/store/column-names.ts';
import type { Store } from '../../../api/store/store.ts';
import { makeRepetition, makeSession } from '../../api/coach/make-club.ts';
import { uniform } from '../../helpers/random.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { openTestApi } from '../../helpers/test-api.ts';

export interface InventedClub {
  athletes: number;
  /** Evenly over a year. */
  sessions: number;
  /** An athlete and session. */
  repetitions: number;
  /** Repetitions that rest on raw signals of two sensors: each with recordings of its own, on the same raw files. */
  recorded: number;
}

const FIRST_DAY = '2025-06-02';

/**
 * Fills a new folder with a year of an invented club: results as an analysis would give them, 20 contacts each, and some repetitions with
 * the signals of a simulated sprint. Everybody agreed to research.
 */
export async function inventClub(folder: string, seed: number, club: InventedClub): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const api = await openTestApi(folder);
  const { store } = api;
  const random = uniform(seed);
  const ids: number[] = [];
  store.transaction(() => {
    for (let a = 0; a < club.athletes; a++) {
      const sex = a % 2 === 0 ? 'female' : 'male';
      const birth_date = String(1988 + Math.floor(22 * random()));
      const { athlete_id } = createAthlete(store, {
        name: `Runner ${seed}-${a}`,
        sex,
        birth_date,
        body_mass_kg: 55 + 30 * random(),
      });
      changeConsent(store, athlete_id, { status: 'given', status_date: FIRST_DAY, guardian: 'a parent' });
      ids.push(athlete_id);
    }
  });
  for (let s = 0; s < club.sessions; s++) {
    store.transaction(() => {
      const session = makeSession(store, addDays(FIRST_DAY, Math.floor((s * 365) / club.sessions)));
      for (const [i, id] of ids.entries()) {
        for (let r = 0; r < club.repetitions; r++) {
          const effort_percent = r % 2 === 0 ? 100 : 80;
          const contact_time_ms = 108 + i + 20 * (r % 2) + 4 * random();
          makeRepetition(
            store,
            session,
            id,
            { contact_time_ms, speed_max_mps: 7.5 + 1.5 * random() },
            { effort_percent },
          );
        }
      }
    });
  }
  if (club.recorded > 0) {
    const { left, right } = sprintFiles();
    const fields = {
      athlete_id: ids[0],
      session_id: 1,
      mounting: 'foot',
      effort_percent: 100,
      course: '30m',
      time: '5.3s',
    };
    await api.import(fields, { left, right });
    copyRecorded(store, club.recorded - 1);
  }
  await api.app.close();
  store.close();
}

/** Copies the imported repetition with its recordings and samples. */
function copyRecorded(store: Store, copies: number): void {
  const columns = (table: string, without: string[]) =>
    columnNames(store, table)
      .filter((name) => !without.includes(name))
      .join(', ');
  const { source } = store.prepare('SELECT max(repetition_id) AS source FROM repetition_recordings').get() as {
    source: number;
  };
  const recordings = store
    .prepare('SELECT recording_id FROM repetition_recordings WHERE repetition_id = ?')
    .all(source) as {
    recording_id: number;
  }[];
  const own = columns('repetitions', ['repetition_id', 'uuid', 'analysis_id', 'state']);
  const of = columns('recordings', ['recording_id', 'uuid']);
  const chunk = columns('recording_chunks', ['recording_id']);
  store.transaction(() => {
    for (let i = 0; i < copies; i++) {
      const { lastInsertRowid: repetition } = store
        .prepare(
          `INSERT INTO repetitions (state, ${own}) SELECT 'recorded', ${own} FROM repetitions WHERE repetition_id = ?`,
        )
        .run(source);
      for (const { recording_id } of recordings) {
        const { lastInsertRowid: recording } = store
          .prepare(`INSERT INTO recordings (${of}) SELECT ${of} FROM recordings WHERE recording_id = ?`)
          .run(recording_id);
        store
          .prepare(
            `INSERT INTO recording_chunks (recording_id, ${chunk}) SELECT ?, ${chunk} FROM recording_chunks WHERE recording_id = ?`,
          )
          .run(recording, recording_id);
        store.prepare('INSERT INTO repetition_recordings VALUES (?, ?)').run(repetition, recording);
      }
    }
  });
}
