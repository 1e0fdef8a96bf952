import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import type { FieldAthlete } from '../../../../shared/schemas/coach/field-view.ts';
import { startStyleWords } from '../../../app/describe.ts';
import { phrasesOf } from '../../../app/language.ts';
import { useNow } from '../../../app/use-now.ts';
import { courseText } from '../quantity-text.ts';
import { minutesText, restedMs } from './rest.ts';

const t = phrasesOf('field', fieldWords);

interface RestClockProps {
  athlete: FieldAthlete;
  /** How far the server's clock is ahead of this device's. */
  ahead_ms: number;
}

/** How much of the rest is over, counted from the last contact by itself, and what comes next for this athlete. */
export function RestClock({ athlete, ahead_ms }: RestClockProps) {
  const { next_set, planned, done } = athlete;
  const now = useNow(restedMs(athlete, Date.now() + ahead_ms) !== null);
  const rested_ms = restedMs(athlete, now + ahead_ms);
  const isDone = planned !== null && next_set === null;
  const of_ms = next_set ? next_set.rest_s * 1000 : 0;
  const ready = rested_ms !== null && next_set !== null && rested_ms >= of_ms;
  if (rested_ms === null && !next_set && !isDone) return null;
  return (
    <div class={ready ? 'rest is-ready' : 'rest'}>
      {rested_ms !== null && !isDone && (
        <p class="rest-clock" role="timer">
          <span class="visually-hidden">{t('rest')} </span>
          <strong>{minutesText(rested_ms)}</strong>{' '}
          {next_set && <span class="rest-of">{ready ? t('ready') : t('rest_of', { time: minutesText(of_ms) })}</span>}
        </p>
      )}
      <p class="rest-next">
        {isDone ? (
          <>
            <strong>{t('all_done')}</strong> {t('all_planned', { done })}
          </>
        ) : (
          next_set && (
            <>
              {t('next_set', { course: courseText(next_set.distance_m), percent: next_set.effort_percent })},{' '}
              {startStyleWords(next_set.start_style)}
              {next_set.note ? `, “${next_set.note}”` : ''}
            </>
          )
        )}
      </p>
      {rested_ms !== null && next_set !== null && of_ms > 0 && (
        <div class="rest-bar" aria-hidden="true">
          <span style={{ width: `${Math.min(100, (100 * rested_ms) / of_ms)}%` }} />
        </div>
      )}
    </div>
  );
}
