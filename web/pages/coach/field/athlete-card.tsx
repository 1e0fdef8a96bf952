import type { FieldAthlete, FieldRepetition } from '../../../../shared/schemas/coach/field-view.ts';
import { formatTime } from '../../../app/format.ts';
import { RecordingNote } from '../../repetition/recording-note.tsx';
import { JudgedFigure } from '../parts/judged-figure.tsx';
import { SidePicture } from '../parts/side-picture.tsx';
import { courseText } from '../quantity-text.ts';
import { RatingRow } from './rating-row.tsx';
import { RestClock } from './rest-clock.tsx';
import { canSpeak, setSpeaking, speak, speaking } from './speak.ts';

/** Everything about one athlete's last repetition that can be taken in at a glance. */
export function AthleteCard({ athlete, session_id }: { athlete: FieldAthlete; session_id: number }) {
  const { latest, judgements, focus } = athlete;
  const sided = judgements.filter((judgement) => judgement.side_sentence !== '');
  // The sentence may say it already; then only another reason is worth a second box.
  const saysStop = athlete.sentence.includes('consider stopping') && !athlete.stop.includes('speed');
  const beyond = judgements.some((judgement) => judgement.beyond !== null);
  return (
    <article class="athlete-card" aria-label={`${athlete.name}, last repetition`}>
      <div class="card-head">
        <h2>
          <a href={`#/athletes/${athlete.athlete_id}`}>{athlete.name}</a>
        </h2>
        {latest?.time_s != null && (
          <p class="card-time">
            {formatTime(latest.time_s)}{' '}
            {latest.timing_method === 'hand' && <span class="card-time-method">by hand</span>}
          </p>
        )}
        <p class="quiet card-course">{latest ? courseLine(athlete, latest) : 'not run yet'}</p>
      </div>
      <p class={beyond ? 'headline is-beyond' : 'headline'} aria-live="polite">
        {athlete.sentence}
      </p>
      {latest && <RecordingNote quality={latest.quality ?? []} />}
      {athlete.stop && !saysStop && <p class="stop-advice">{athlete.stop}</p>}
      {judgements.length > 0 && (
        <dl class="judged-list">
          {judgements.map((judgement) => (
            <JudgedFigure
              key={judgement.quantity}
              judgement={judgement}
              note={judgement.quantity === focus?.quantity ? 'focus' : undefined}
            />
          ))}
        </dl>
      )}
      {focus && focus.quantity === null && (
        <p class="quiet">{focus.name}: the sensors sit where this cannot be measured. Rate it by eye.</p>
      )}
      {focus && focus.quantity !== null && latest && !judgements.some((j) => j.quantity === focus.quantity) && (
        <p class="quiet">{focus.name}: could not be measured in this repetition.</p>
      )}
      {sided.map((judgement) => (
        <SidePicture key={judgement.quantity} judgement={judgement} />
      ))}
      <RestClock athlete={athlete} />
      {latest && <RatingRow latest={latest} ratings={athlete.ratings} focus={focus} />}
      <div class="actions">
        {latest && (
          <a class="button" href={`#/repetitions/${latest.repetition_id}`}>
            Every contact
          </a>
        )}
        {canSpeak && latest && (
          <>
            <button type="button" onClick={() => speak(`${athlete.name}. ${athlete.stop || athlete.sentence}`)}>
              Say it
            </button>
            <label class="switch">
              <input
                type="checkbox"
                checked={speaking.value}
                onChange={(event) => setSpeaking(event.currentTarget.checked)}
              />
              <span>Say each new result</span>
            </label>
          </>
        )}
        {latest?.state === 'analysed' && (
          <a class="button" href={`#/reports/session/${session_id}/${athlete.athlete_id}`}>
            Page for {athlete.name.split(' ')[0]}
          </a>
        )}
        <a class="button" href={`#/plan/${session_id}`}>
          Plan
        </a>
        <a class="button" href={`#/sessions/${session_id}/fatigue`}>
          Through the session
        </a>
      </div>
    </article>
  );
}

/** `repetition 3 of 13 · 40 yd · 100 %`. */
function courseLine(athlete: FieldAthlete, latest: FieldRepetition): string {
  return [
    `repetition ${athlete.done}${athlete.planned === null ? '' : ` of ${athlete.planned}`}`,
    latest.distance_m === null ? '' : courseText(latest.distance_m),
    latest.effort_percent === null ? '' : `${latest.effort_percent} %`,
    latest.time_s === null ? 'not timed' : '',
  ]
    .filter(Boolean)
    .join(' · ');
}
