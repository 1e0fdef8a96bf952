import { phrasesOf } from '../../../app/language.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import type { SessionOfAthlete } from '../../../../shared/schemas/coach/standing.ts';
import { formatShortDate } from '../../../app/format.ts';
import { markOf } from '../parts/verdict-mark.tsx';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('athletes', athletesWords);

interface AthleteSessionsProps {
  athlete_id: number;
  name: string;
  sessions: readonly SessionOfAthlete[];
}

/** The latest sessions of one athlete, each with its verdict. */
export function AthleteSessions({ athlete_id, name, sessions }: AthleteSessionsProps) {
  return (
    <section>
      <h2>{common('page_Sessions')}</h2>
      {sessions.length === 0 ? (
        <p>{t('no_session_yet_plan_one', { name })}</p>
      ) : (
        <ul class="lines">
          {sessions.map((session) => (
            <li key={session.session_id}>
              <a class="line session-of-athlete" href={`#/sessions/${session.session_id}?athlete_id=${athlete_id}`}>
                <span class="line-main">
                  <strong>{session.title || common('page_Session')}</strong>
                  <span class="quiet">
                    {formatShortDate(session.session_date)}, {common('repetitions', { n: session.repetitions })}
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
