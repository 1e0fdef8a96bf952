import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import type { FieldAthlete, FieldRepetition } from '../../../../shared/schemas/coach/field-view.ts';
import { formatTime } from '../../../app/format.ts';
import { RecordingNote } from '../../repetition/recording-note.tsx';
import { JudgedFigure } from '../parts/judged-figure.tsx';
import { SidePicture } from '../parts/side-picture.tsx';
import { courseText } from '../quantity-text.ts';
import { RatingRow } from './rating-row.tsx';
import { RestClock } from './rest-clock.tsx';
import { canSpeak, setSpeaking, speak, speaking } from './speak.ts';

const t = phrasesOf('field', fieldWords);

/** Everything about one athlete's last repetition that can be taken in at a glance. */
export function AthleteCard({ athlete, session_id }: { athlete: FieldAthlete; session_id: number }) {
  const { latest, judgements, focus } = athlete;
  const sided = judgements.filter((judgement) => judgement.side_sentence !== '');
  const { verdict } = athlete;
  const marked = verdict.kind === 'changed' ? `is-beyond ${verdict.wanted ? 'is-wanted' : 'is-unwanted'}` : '';
  return (
    <article class="athlete-card" aria-label={t('last_repetition_of', { name: athlete.name })}>
      <div class="card-head">
        <h2>
          <a href={`#/athletes/${athlete.athlete_id}`}>{athlete.name}</a>
        </h2>
        {latest?.time_s != null && (
          <p class="card-time">
            {formatTime(latest.time_s)}{' '}
            {latest.timing_method === 'hand' && <span class="card-time-method">{t('by_hand')}</span>}
          </p>
        )}
        <p class="quiet card-course">{latest ? courseLine(athlete, latest) : t('not_run_yet')}</p>
      </div>
      <p class={`headline ${marked}`.trim()} aria-live="polite">
        {athlete.sentence}
      </p>
      {latest?.clock_question && <p>{latest.clock_question}</p>}
      {latest && <RecordingNote quality={latest.quality ?? []} />}
      {verdict.next.text && <p class={verdict.next.kind === 'stop' ? 'stop-advice' : undefined}>{verdict.next.text}</p>}
      {judgements.length > 0 && (
        <dl class="judged-list">
          {judgements.map((judgement) => (
            <JudgedFigure
              key={judgement.quantity}
              judgement={judgement}
              note={judgement.quantity === focus?.quantity ? t('focus') : undefined}
            />
          ))}
        </dl>
      )}
      {focus && focus.quantity === null && <p class="quiet">{t('cannot_be_measured', { focus: focus.name })}</p>}
      {focus && focus.quantity !== null && latest && !judgements.some((j) => j.quantity === focus.quantity) && (
        <p class="quiet">{t('not_measured_now', { focus: focus.name })}</p>
      )}
      {sided.map((judgement) => (
        <SidePicture key={judgement.quantity} judgement={judgement} />
      ))}
      <RestClock athlete={athlete} />
      {latest && <RatingRow latest={latest} ratings={athlete.ratings} focus={focus} />}
      <div class="actions">
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
            {t('page_for', { name: athlete.name.split(' ')[0] })}
          </a>
        )}
        <a class="button" href={`#/plan/${session_id}`}>
          {t('plan')}
        </a>
        <a class="button" href={`#/sessions/${session_id}/fatigue`}>
          {t('through_the_session')}
        </a>
      </div>
    </article>
  );
}

/** `repetition 3 of 13 · 40 yd · 100 %`. */
function courseLine(athlete: FieldAthlete, latest: FieldRepetition): string {
  return [
    t('repetition_of', { done: athlete.done, planned: athlete.planned }),
    latest.distance_m === null ? '' : courseText(latest.distance_m),
    latest.effort_percent === null ? '' : `${latest.effort_percent} %`,
    latest.time_s === null ? t('not_timed') : '',
  ]
    .filter(Boolean)
    .join(' · ');
}
