import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import type { FieldAthlete } from '../../../../shared/schemas/coach/field-view.ts';
import { formatTime } from '../../../app/format.ts';
import { phrasesOf } from '../../../app/language.ts';
import { dropTime, giveTime, waitingTimes } from './hand-times.ts';

const t = phrasesOf('field', fieldWords);

/** Times by hand of this athlete that are not stored yet: what each waits for, and the coach's word on it. */
export function WaitingTimes({ athlete, onGiven }: { athlete: FieldAthlete; onGiven: () => void }) {
  const { latest } = athlete;
  const own = waitingTimes.value.filter((time) => time.athlete_id === athlete.athlete_id);
  if (own.length === 0) return null;
  return (
    <ul class="waiting-times">
      {own.map((time) => (
        <li key={time.stopped_ms}>
          <span>
            <strong>{formatTime(time.time_s)}</strong>{' '}
            {time.repetition_id === null ? t('waits_for_result') : t('waits_for_network')}
          </span>
          {time.repetition_id === null && latest && latest.time_s === null && (
            <button
              type="button"
              onClick={() => {
                giveTime(time, latest.repetition_id);
                onGiven();
              }}
            >
              {t('give_to', { n: latest.order_number })}
            </button>
          )}
          <button type="button" class="plain" onClick={() => dropTime(time)}>
            {t('throw_away')}
          </button>
        </li>
      ))}
    </ul>
  );
}
