import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import { useEffect, useRef } from 'preact/hooks';
import type { FieldAthlete, FieldView } from '../../../../shared/schemas/coach/field-view.ts';

const t = phrasesOf('field', fieldWords);

interface AthleteStripProps {
  view: FieldView;
  chosen: number;
  onChoose: (athlete_id: number) => void;
}

/** All athletes in running order, one tap each: how many repetitions, who ran last, who was beyond normal. */
export function AthleteStrip({ view, chosen, onChoose }: AthleteStripProps) {
  const list = useRef<HTMLOListElement>(null);
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
              {athlete.athlete_id === view.latest_athlete_id && t('just_ran')}
              {athlete.stop ? t('stop_question') : isBeyond(athlete) ? t('beyond') : ''}
            </span>
          </button>
        </li>
      ))}
    </ol>
  );
}

function isBeyond(athlete: FieldAthlete): boolean {
  return athlete.stop !== '' || athlete.judgements.some((judgement) => judgement.beyond !== null);
}
