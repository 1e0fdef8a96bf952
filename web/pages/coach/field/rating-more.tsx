import { useState } from 'preact/hooks';
import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import type { Rating } from '../../../../shared/schemas/coach/field-view.ts';
import { phrasesOf } from '../../../app/language.ts';
import { PhotoField } from './photo-field.tsx';
import { rate, shownRating } from './rating-outbox.ts';
import { Scores } from './scores.tsx';

const t = phrasesOf('field', fieldWords);

interface Aspect {
  key: string;
  name: string;
}

interface RatingMoreProps {
  repetition_id: number;
  /** The focus first, where there is one. */
  aspects: Aspect[];
  ratings: Rating[];
}

/** Everything else that an eye can rate, with a note and a photograph each. */
export function RatingMore({ repetition_id, aspects, ratings }: RatingMoreProps) {
  const [shown, setShown] = useState(aspects[0].key);
  const current = shownRating(repetition_id, shown, ratings);
  return (
    <details class="rating-more">
      <summary>{t('more_to_rate', { given: given(repetition_id, aspects, ratings) })}</summary>
      <fieldset class="choice">
        <legend class="visually-hidden">{t('what_to_rate')}</legend>
        <div class="choice-row">
          {aspects.map(({ key, name }) => (
            <label key={key}>
              <input
                type="radio"
                name={`what-${repetition_id}`}
                checked={shown === key}
                onChange={() => setShown(key)}
              />
              <span>{name}</span>
            </label>
          ))}
        </div>
      </fieldset>
      {shown !== aspects[0].key && (
        <Scores
          name={`${repetition_id}-${shown}`}
          legend={aspects.find(({ key }) => key === shown)?.name ?? shown}
          value={current.rating}
          onChoose={(rating) => void rate(repetition_id, shown, { ...current, rating })}
        />
      )}
      <label class="field">
        <span>{t('note')}</span>
        <textarea
          key={`${repetition_id}-${shown}`}
          rows={2}
          defaultValue={current.note}
          onChange={(event) =>
            void rate(repetition_id, shown, { rating: current.rating, note: event.currentTarget.value })
          }
        />
      </label>
      <PhotoField
        key={`${repetition_id}-${shown}`}
        repetition_id={repetition_id}
        aspect={shown}
        name={aspects.find(({ key }) => key === shown)?.name ?? shown}
        has={ratings.some((rating) => rating.aspect === shown && rating.has_photo)}
      />
    </details>
  );
}

/** What was rated beside the first aspect, and whether there is a note: `arms 3, note`. */
function given(repetition_id: number, aspects: Aspect[], ratings: Rating[]): string {
  const shown = aspects.map(({ key, name }) => ({ name, ...shownRating(repetition_id, key, ratings) }));
  const scores = shown.slice(1).flatMap(({ name, rating }) => (rating === null ? [] : [`${name} ${rating}`]));
  return [...scores, ...(shown.some(({ note }) => note !== '') ? [t('note')] : [])].join(', ');
}
