import type { Kind } from '../rows/kinds.ts';
import type { LocalRow } from '../rows/read-rows.ts';
import type { Exchange } from './exchange.ts';

/**
 * Which rows of a kind may leave: those of athletes who agreed, sessions in which one of them ran or was to run, and what is the club's
 * own.
 */
export function mayLeave(x: Exchange, kind: Kind): (row: LocalRow) => boolean {
  if (kind.whose !== null) return (row) => row.athlete_id !== null && x.allowed.has(row.athlete_id);
  if (kind.table !== 'sessions' && kind.table !== 'session_plans') return () => true;
  const sessions = sessionsOfAllowed(x);
  // Both are found by the number of the session.
  return (row) => sessions.has(Number(row.local_key));
}

function sessionsOfAllowed(x: Exchange): Set<number> {
  const rows = x.store
    .prepare(
      `WITH agreed AS (SELECT value AS athlete_id FROM json_each(?))
       SELECT session_id FROM repetitions WHERE athlete_id IN (SELECT athlete_id FROM agreed)
       UNION SELECT session_id FROM session_athletes WHERE athlete_id IN (SELECT athlete_id FROM agreed)
       UNION SELECT session_id FROM sessions WHERE athlete_id IN (SELECT athlete_id FROM agreed)`,
    )
    .all(JSON.stringify([...x.allowed])) as { session_id: number }[];
  return new Set(rows.map(({ session_id }) => session_id));
}
