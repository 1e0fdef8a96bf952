import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import type { FieldAthlete } from '../../../../shared/schemas/coach/field-view.ts';
import { phrasesOf } from '../../../app/language.ts';
import { firstName } from './first-name.ts';
import { canSpeak, setSpeaking, speak, speaking } from './speak.ts';

const t = phrasesOf('field', fieldWords);

/** Where to go from one athlete's last repetition. */
export function CardLinks({ athlete, session_id }: { athlete: FieldAthlete; session_id: number }) {
  const { latest, verdict } = athlete;
  return (
    <div class="actions card-links">
      {latest && (
        <a class="button" href={`#/repetitions/${latest.repetition_id}`}>
          {t('every_contact')}
        </a>
      )}
      {canSpeak && latest && (
        <>
          <button type="button" onClick={() => speak(`${athlete.name}. ${athlete.sentence} ${verdict.next.text}`)}>
            {t('say_it')}
          </button>
          <label class="switch">
            <input
              type="checkbox"
              checked={speaking.value}
              onChange={(event) => setSpeaking(event.currentTarget.checked)}
            />
            <span>{t('say_each')}</span>
          </label>
        </>
      )}
      {latest?.state === 'analysed' && (
        <a class="button" href={`#/reports/session/${session_id}/${athlete.athlete_id}`}>
          {t('page_for', { name: firstName(athlete.name) })}
        </a>
      )}
      <a class="button" href={`#/plan/${session_id}`}>
        {t('plan')}
      </a>
      <a class="button" href={`#/sessions/${session_id}/fatigue`}>
        {t('through_the_session')}
      </a>
    </div>
  );
}
