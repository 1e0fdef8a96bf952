import type { SessionWithRepetitions } from '../../shared/schemas/session.ts';
import type { Side } from '../../shared/words.ts';
import { listRepetitions } from './repetitions.ts';
import { getSession } from './sessions.ts';
import type { Store } from './store.ts';

/** A session with its repetitions in running order. */
export function getSessionWithRepetitions(store: Store, sessionId: number): SessionWithRepetitions {
  return {
    ...getSession(store, sessionId),
    repetitions: listRepetitions(store, { session_id: sessionId }),
    recording_doubts: recordingDoubts(store, sessionId),
  };
}

/** What the current analyses doubt about their recordings. SQLite looks through the stored quality, so that no analysis is opened. */
function recordingDoubts(store: Store, sessionId: number): SessionWithRepetitions['recording_doubts'] {
  const rows = store
    .prepare(
      `SELECT repetitions.repetition_id, json_extract(fault.value, '$.code') AS code,
              json_group_array(json_extract(sensor.value, '$.side')) AS sides
         FROM repetitions
         JOIN analyses ON analyses.analysis_id = repetitions.analysis_id
         JOIN json_each(analyses.quality) AS sensor
         JOIN json_each(sensor.value, '$.faults') AS fault
        WHERE repetitions.session_id = ? AND repetitions.deleted_utc IS NULL
        GROUP BY repetitions.repetition_id, code
        ORDER BY repetitions.order_number, code`,
    )
    .all(sessionId) as { repetition_id: number; code: string; sides: string }[];
  return rows.map((row) => ({ ...row, sides: JSON.parse(row.sides) as Side[] }));
}
