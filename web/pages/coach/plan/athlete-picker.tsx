import { phrasesOf } from '../../../app/language.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import type { Athlete } from '../../../../shared/schemas/athlete.ts';

const t = phrasesOf('plan', planWords);

interface AthletePickerProps {
  athletes: Athlete[];
  /** In running order. */
  chosen: number[];
  onChange: (athlete_ids: number[]) => void;
}

/** Who takes part, in which order they run. */
export function AthletePicker({ athletes, chosen, onChange }: AthletePickerProps) {
  const name = (id: number) => athletes.find((athlete) => athlete.athlete_id === id)?.name ?? t('athlete', { id });
  const others = athletes.filter((athlete) => !chosen.includes(athlete.athlete_id));
  const move = (index: number) => {
    const next = [...chosen];
    [next[index - 1], next[index]] = [next[index], next[index - 1]];
    onChange(next);
  };
  return (
    <details class="more" open={chosen.length === 0}>
      <summary>
        {t('athletes')}
        {chosen.length === 0 ? t('nobody_chosen') : t('first', { n_chosen: chosen.length, chosen: name(chosen[0]) })}
      </summary>
      <ol class="picked">
        {chosen.map((id, index) => (
          <li key={id}>
            <span class="picked-name">{name(id)}</span>
            <button type="button" class="plain" disabled={index === 0} onClick={() => move(index)}>
              {t('up')}
              <span class="visually-hidden">{t('runs_earlier', { id: name(id) })}</span>
            </button>
            <button type="button" class="plain" onClick={() => onChange(chosen.filter((other) => other !== id))}>
              {t('out')}
              <span class="visually-hidden">{t('does_not_take_part', { id: name(id) })}</span>
            </button>
          </li>
        ))}
      </ol>
      {others.length > 0 && (
        <div class="actions">
          {others.map((athlete) => (
            <button type="button" key={athlete.athlete_id} onClick={() => onChange([...chosen, athlete.athlete_id])}>
              + {athlete.name}
            </button>
          ))}
        </div>
      )}
      {athletes.length === 0 && (
        <p>
          {t('no_athlete_is_known_yet')}
          <a href="#/athletes">{t('add_the_first')}</a>
        </p>
      )}
    </details>
  );
}
