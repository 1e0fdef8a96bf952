import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import { useEffect, useRef } from 'preact/hooks';
import type { FieldAthlete, FieldView } from '../../../../shared/schemas/coach/field-view.ts';
import { useNow } from '../../../app/use-now.ts';
import { minutesText, restedMs } from './rest.ts';

const t = phrasesOf('field', fieldWords);

interface AthleteStripProps {
  view: FieldView;
  chosen: number;
  /** How far the server's clock is ahead of this device's. */
  ahead_ms: number;
  onChoose: (athlete_id: number) => void;
}

/** All athletes in running order, one tap each: how many repetitions, how long rested, who was beyond normal. */
export function AthleteStrip({ view, chosen, ahead_ms, onChoose }: AthleteStripProps) {
  const list = useRef<HTMLOListElement>(null);
  const resting = view.athletes.some((athlete) => restedMs(athlete, Date.now() + ahead_ms) !== null);
  const now = useNow(resting) + ahead_ms;
  // The chosen one is always in sight, also when a result has moved the choice.
  useEffect(() => {
    const place = list.current;
    const button = place?.querySelector<HTMLElement>('[aria-current="true"]');
    if (!place || !button) return;
    place.scrollLeft = button.offsetLeft - place.offsetLeft - (place.clientWidth - button.offsetWidth) / 2;
  }, [chosen]);
  return (
    <ol class="athlete-strip" ref={list} aria-label={t('running_order')}>
      {view.athletes.map((athlete) => (
        <li key={athlete.athlete_id}>
          <button
            type="button"
            class={isBeyond(athlete) ? 'is-beyond' : undefined}
            aria-current={athlete.athlete_id === chosen ? 'true' : undefined}
            onClick={() => onChoose(athlete.athlete_id)}
          >
            <span class="strip-name">{athlete.name}</span>
            <span class="strip-state">
              {athlete.planned === null ? athlete.done : `${athlete.done}/${athlete.planned}`}
              {restText(athlete, now)}
              {athlete.stop ? t('stop_question') : isBeyond(athlete) ? t('beyond') : ''}
            </span>
          </button>
        </li>
      ))}
    </ol>
  );
}

/** `, 2:41`, or that the rest is over. */
function restText(athlete: FieldAthlete, now_ms: number): string {
  const rested_ms = restedMs(athlete, now_ms);
  if (rested_ms === null || (athlete.planned !== null && athlete.next_set === null)) return '';
  const isOver = athlete.next_set !== null && rested_ms >= athlete.next_set.rest_s * 1000;
  return isOver ? t('strip_ready') : ` · ${minutesText(rested_ms)}`;
}

function isBeyond(athlete: FieldAthlete): boolean {
  return athlete.stop !== '' || athlete.judgements.some((judgement) => judgement.beyond !== null);
}
