import type { AthleteNow, LastTest } from '../../../../shared/schemas/coach/standing.ts';
import { formatDate, formatShortDate, formatTime } from '../../../app/format.ts';

/** Last test, next test, next session: the dates a coach asks for. */
export function WhatIsNext({ now }: { now: AthleteNow }) {
  const { last_test, next_test, next_session, athlete_id, focus, returning } = now;
  return (
    <section class="what-next" aria-labelledby="what-next">
      <h2 id="what-next">Tests and what is next</h2>
      <dl>
        <dt>Last sprint test</dt>
        <dd>
          {last_test ? (
            <>
              <strong>{formatTime(last_test.time_s)}</strong>
              {!returning && bestWords(last_test)}
              <span class="quiet">
                {formatShortDate(last_test.date)}, {last_test.title}
              </span>
              {!returning && last_test.since_last && <span>{last_test.since_last.sentence}</span>}
            </>
          ) : (
            'none yet'
          )}
        </dd>
        <dt>Next sprint test</dt>
        <dd>
          <a href={`#/athletes/${athlete_id}/tests`}>{next_test.date ? formatDate(next_test.date) : 'no date'}</a>
          <span class="quiet">{next_test.why}</span>
        </dd>
        <dt>Next session</dt>
        <dd>
          {next_session ? (
            <a href={`#/plan/${next_session.session_id}`}>
              {formatDate(next_session.session_date)}
              {next_session.title && `, ${next_session.title}`}
            </a>
          ) : (
            <>
              none planned. <a href="#/plan">Plan one</a>
            </>
          )}
        </dd>
        {focus?.cue && (
          <>
            <dt>Your cue</dt>
            <dd>“{focus.cue}”</dd>
          </>
        )}
      </dl>
    </section>
  );
}

function bestWords({ time_s, best_s, best_date }: LastTest): string {
  if (time_s <= best_s) return ', the best of this kind so far';
  return `; best ${formatTime(best_s)} on ${formatShortDate(best_date)}`;
}
