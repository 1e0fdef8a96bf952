import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import { useState } from 'preact/hooks';
import type { FieldAthlete, FieldRepetition, Rating } from '../../../../shared/schemas/coach/field-view.ts';
import { PhotoField } from './photo-field.tsx';
import { rate, shownRating } from './rating-outbox.ts';

const t = phrasesOf('field', fieldWords);

interface RatingRowProps {
  latest: FieldRepetition;
  ratings: Rating[];
  focus: FieldAthlete['focus'];
}

const EYE_ASPECTS = ['arms', 'head', 'trunk'] as const;
const SCORES = [1, 2, 3, 4, 5];

/** What the coach saw: 1 to 5 for the focus and for what no sensor sees, and a note. */
export function RatingRow({ latest, ratings, focus }: RatingRowProps) {
  const aspects = [
    ...(focus ? [{ key: focus.focus, name: focus.name }] : []),
    ...EYE_ASPECTS.map((key) => ({ key, name: t(`eye_${key}`) })),
  ];
  const [shown, setShown] = useState(aspects[0].key);
  const stored = (aspect: string) => ratings.some((rating) => rating.aspect === aspect && rating.has_photo);
  const current = shownRating(latest.repetition_id, shown, ratings);
  return (
    <details class="rating">
      <summary>
        {t('your_eye')} {summary(latest.repetition_id, aspects, ratings) || t('rate_it', { what: aspects[0].name })}
      </summary>
      <fieldset class="choice">
        <legend class="visually-hidden">{t('what_to_rate')}</legend>
        <div class="choice-row">
          {aspects.map((entry) => (
            <label key={entry.key}>
              <input
                type="radio"
                name={`what-${latest.repetition_id}`}
                checked={shown === entry.key}
                onChange={() => setShown(entry.key)}
              />
              <span>{entry.name}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <fieldset class="choice scores">
        <legend>{t('scale')}</legend>
        <div class="choice-row">
          {SCORES.map((score) => (
            <label key={score}>
              <input
                type="radio"
                name={`score-${latest.repetition_id}-${shown}`}
                checked={current.rating === score}
                onChange={() => void rate(latest.repetition_id, shown, { ...current, rating: score })}
              />
              <span>{score}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <label class="field">
        <span>{t('note')}</span>
        <textarea
          key={`${latest.repetition_id}-${shown}`}
          rows={2}
          defaultValue={current.note}
          onChange={(event) =>
            void rate(latest.repetition_id, shown, { rating: current.rating, note: event.currentTarget.value })
          }
        />
      </label>
      <PhotoField
        key={`${latest.repetition_id}-${shown}`}
        repetition_id={latest.repetition_id}
        aspect={shown}
        has={stored(shown)}
      />
    </details>
  );
}

function summary(repetition_id: number, aspects: { key: string; name: string }[], ratings: Rating[]): string {
  return aspects
    .map(({ key, name }) => ({ name, ...shownRating(repetition_id, key, ratings) }))
    .filter((entry) => entry.rating !== null)
    .map((entry) => `${entry.name} ${entry.rating}`)
    .join(', ');
}
