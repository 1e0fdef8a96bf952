import type { SessionOfAthlete } from '../../../../shared/schemas/coach/standing.ts';
import { count } from '../../../app/describe.ts';
import { formatShortDate } from '../../../app/format.ts';
import { markOf } from '../parts/verdict-mark.tsx';

interface AthleteSessionsProps {
  athlete_id: number;
  name: string;
  sessions: readonly SessionOfAthlete[];
}

/** The latest sessions of one athlete, each with its verdict. */
export function AthleteSessions({ athlete_id, name, sessions }: AthleteSessionsProps) {
  return (
    <section>
      <h2>Sessions</h2>
      {sessions.length === 0 ? (
        <p>No session yet. Plan one and name {name} in it, or bring files in.</p>
      ) : (
        <ul class="lines">
          {sessions.map((session) => (
            <li key={session.session_id}>
              <a class="line session-of-athlete" href={`#/sessions/${session.session_id}?athlete_id=${athlete_id}`}>
                <span class="line-main">
                  <strong>{session.title || 'Session'}</strong>
                  <span class="quiet">
                    {formatShortDate(session.session_date)}, {count(session.repetitions, 'repetition')}
                  </span>
                </span>
                <span class={markOf(session.verdict)}>{session.sentence}</span>
              </a>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
