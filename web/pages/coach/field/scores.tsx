import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';

const t = phrasesOf('field', fieldWords);
const SCORES = [1, 2, 3, 4, 5];

interface ScoresProps {
  /** Unique on the page. */
  name: string;
  legend: string;
  value: number | null;
  onChoose: (score: number) => void;
}

/** 1 to 5, one tap. */
export function Scores({ name, legend, value, onChoose }: ScoresProps) {
  return (
    <fieldset class="choice scores">
      <legend>
        {legend} <span class="scores-scale">{t('scale')}</span>
      </legend>
      <div class="choice-row">
        {SCORES.map((score) => (
          <label key={score}>
            <input type="radio" name={`score-${name}`} checked={value === score} onChange={() => onChoose(score)} />
            <span>{score}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
