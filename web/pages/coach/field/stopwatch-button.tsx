import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import type { FieldAthlete } from '../../../../shared/schemas/coach/field-view.ts';
import { formatNumber } from '../../../app/format.ts';
import { phrasesOf } from '../../../app/language.ts';
import { useNow } from '../../../app/use-now.ts';
import { momentOf, startStopwatch, stopStopwatch, stopwatch } from './hand-times.ts';
import { firstName } from './first-name.ts';

const t = phrasesOf('field', fieldWords);
/** A stopwatch that was forgotten is not waited for: no sprint takes this long. */
const FORGOTTEN_MS = 10 * 60_000;

/** A time by hand in two taps: start, stop. It runs on while other athletes are looked at, and over a reload. */
export function StopwatchButton({ athlete, session_id }: { athlete: FieldAthlete; session_id: number }) {
  const watch = stopwatch.value;
  const now = useNow(watch !== null, 100);
  const running = watch !== null && now - watch.started_ms < FORGOTTEN_MS;
  return running ? (
    <button type="button" class="stopwatch is-running" onClick={(event) => stopStopwatch(momentOf(event))}>
      <span>
        {t('stop_watch', { name: firstName(watch.name) })}{' '}
        <span class="stopwatch-time" aria-hidden="true">
          {formatNumber(Math.max(0, now - watch.started_ms) / 1000, 1)}
        </span>
      </span>
    </button>
  ) : (
    <button
      type="button"
      class="stopwatch"
      aria-label={t('start_watch', { name: athlete.name })}
      onClick={(event) =>
        startStopwatch({
          session_id,
          athlete_id: athlete.athlete_id,
          name: athlete.name,
          started_ms: momentOf(event),
          after_repetition_id: athlete.latest?.repetition_id ?? null,
        })
      }
    >
      {t('hand_time')}
    </button>
  );
}
