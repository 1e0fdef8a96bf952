import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import type { FieldAthlete, FieldRepetition, Rating } from '../../../../shared/schemas/coach/field-view.ts';
import { phrasesOf } from '../../../app/language.ts';
import { RatingMore } from './rating-more.tsx';
import { rate, shownRating } from './rating-outbox.ts';
import { Scores } from './scores.tsx';

const t = phrasesOf('field', fieldWords);

interface RatingRowProps {
  latest: FieldRepetition;
  ratings: Rating[];
  focus: FieldAthlete['focus'];
}

const EYE_ASPECTS = ['arms', 'head', 'trunk'] as const;

/** What the coach saw: the focus in one tap; behind it what no sensor sees, a note and a photograph. */
export function RatingRow({ latest, ratings, focus }: RatingRowProps) {
  const { repetition_id } = latest;
  const eye = EYE_ASPECTS.map((key) => ({ key: key as string, name: t(`eye_${key}`) }));
  const aspects = focus ? [{ key: focus.focus, name: focus.name }, ...eye] : eye;
  const [first] = aspects;
  const current = shownRating(repetition_id, first.key, ratings);
  return (
    <div class="rating">
      <Scores
        name={`${repetition_id}-first`}
        legend={t('your_eye', { what: first.name })}
        value={current.rating}
        onChoose={(rating) => void rate(repetition_id, first.key, { ...current, rating })}
      />
      <RatingMore key={repetition_id} repetition_id={repetition_id} aspects={aspects} ratings={ratings} />
    </div>
  );
}
