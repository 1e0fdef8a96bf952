import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import type { FieldAthlete, FieldRepetition } from '../../../../shared/schemas/coach/field-view.ts';
import { formatTime } from '../../../app/format.ts';
import { phrasesOf } from '../../../app/language.ts';
import { RecordingNote } from '../../repetition/recording-note.tsx';
import { verdictClass } from '../../../parts/verdict-class.ts';
import { JudgedFigure } from '../parts/judged-figure.tsx';
import { SidePicture } from '../parts/side-picture.tsx';
import { courseText } from '../quantity-text.ts';
import { CardLinks } from './card-links.tsx';
import { RatingRow } from './rating-row.tsx';
import { RestClock } from './rest-clock.tsx';
import { WaitingTimes } from './waiting-times.tsx';

const t = phrasesOf('field', fieldWords);

interface AthleteCardProps {
  athlete: FieldAthlete;
  session_id: number;
  /** How far the server's clock is ahead of this device's. */
  ahead_ms: number;
  /** Played again: it says so, and takes no ratings. */
  replayed: boolean;
  onGiven: () => void;
}

/** One athlete's last repetition: what to say and do first, in sight without scrolling; the numbers behind it after. */
export function AthleteCard({ athlete, session_id, ahead_ms, replayed, onGiven }: AthleteCardProps) {
  const { latest, judgements, focus, verdict } = athlete;
  const sided = judgements.filter((judgement) => judgement.side_sentence !== '');
  return (
    <article class="athlete-card" aria-label={t('last_repetition_of', { name: athlete.name })}>
      <div class="card-say">
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
          <p class="quiet card-course">
            {replayed && latest && <strong class="replay-mark">{t('replay')}</strong>}{' '}
            {latest ? courseLine(athlete, latest) : t('not_run_yet')}
          </p>
        </div>
        <p class={`headline ${verdictClass(verdict)}`.trim()} aria-live="polite">
          {athlete.sentence}
        </p>
        {verdict.next.text && (
          <p class={verdict.next.kind === 'stop' ? 'stop-advice' : 'card-advice'}>{verdict.next.text}</p>
        )}
        {latest?.clock_question && <p>{latest.clock_question}</p>}
        <RestClock athlete={athlete} ahead_ms={ahead_ms} />
      </div>
      {!replayed && (
        <div class="card-do">
          <WaitingTimes athlete={athlete} onGiven={onGiven} />
          {latest && <RatingRow latest={latest} ratings={athlete.ratings} focus={focus} />}
        </div>
      )}
      <div class="card-figures">
        {latest && <RecordingNote quality={latest.quality ?? []} />}
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
      </div>
      <CardLinks athlete={athlete} session_id={session_id} />
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
