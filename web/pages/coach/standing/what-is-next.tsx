import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import type { AthleteNow, LastTest } from '../../../../shared/schemas/coach/standing.ts';
import { formatDate, formatShortDate, formatTime } from '../../../app/format.ts';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

/** Last test, next test, next session: the dates a coach asks for. */
export function WhatIsNext({ now }: { now: AthleteNow }) {
  const { last_test, next_test, next_session, athlete_id, focus, returning } = now;
  return (
    <section class="what-next" aria-labelledby="what-next">
      <h2 id="what-next">{t('tests_and_what_is_next')}</h2>
      <dl>
        <dt>{t('last_sprint_test')}</dt>
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
            t('none_yet')
          )}
        </dd>
        <dt>{t('next_sprint_test')}</dt>
        <dd>
          <a href={`#/athletes/${athlete_id}/tests`}>
            {next_test.date ? formatDate(next_test.date) : common('no_date')}
          </a>
          <span class="quiet">{next_test.why}</span>
        </dd>
        <dt>{t('next_session')}</dt>
        <dd>
          {next_session ? (
            <a href={`#/plan/${next_session.session_id}`}>
              {formatDate(next_session.session_date)}
              {next_session.title && `, ${next_session.title}`}
            </a>
          ) : (
            <>
              {t('none_planned')}
              <a href="#/plan">{t('plan_one')}</a>
            </>
          )}
        </dd>
        {focus?.cue && (
          <>
            <dt>{t('your_cue')}</dt>
            <dd>“{focus.cue}”</dd>
          </>
        )}
      </dl>
    </section>
  );
}

function bestWords({ time_s, best_s, best_date }: LastTest): string {
  if (time_s <= best_s) return t('the_best_of_this_kind');
  return t('best_on', { best_s: formatTime(best_s), best_date: formatShortDate(best_date) });
}
