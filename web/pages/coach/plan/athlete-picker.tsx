import type { Athlete } from '../../../../shared/schemas/athlete.ts';

interface AthletePickerProps {
  athletes: Athlete[];
  /** In running order. */
  chosen: number[];
  onChange: (athlete_ids: number[]) => void;
}

/** Who takes part, in which order they run. */
export function AthletePicker({ athletes, chosen, onChange }: AthletePickerProps) {
  const name = (id: number) => athletes.find((athlete) => athlete.athlete_id === id)?.name ?? `athlete ${id}`;
  const others = athletes.filter((athlete) => !chosen.includes(athlete.athlete_id));
  const move = (index: number) => {
    const next = [...chosen];
    [next[index - 1], next[index]] = [next[index], next[index - 1]];
    onChange(next);
  };
  return (
    <details class="more" open={chosen.length === 0}>
      <summary>
        Athletes: {chosen.length === 0 ? 'nobody chosen' : `${chosen.length}, first ${name(chosen[0])}`}
      </summary>
      <ol class="picked">
        {chosen.map((id, index) => (
          <li key={id}>
            <span class="picked-name">{name(id)}</span>
            <button type="button" class="plain" disabled={index === 0} onClick={() => move(index)}>
              Up<span class="visually-hidden">: {name(id)} runs earlier</span>
            </button>
            <button type="button" class="plain" onClick={() => onChange(chosen.filter((other) => other !== id))}>
              Out<span class="visually-hidden">: {name(id)} does not take part</span>
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
          No athlete is known yet. <a href="#/athletes">Add the first.</a>
        </p>
      )}
    </details>
  );
}
