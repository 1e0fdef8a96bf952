import { useEffect, useRef, useState } from 'preact/hooks';
import type { FieldAthlete, FieldView } from '../../../../shared/schemas/coach/field-view.ts';
import { speak, speaking } from './speak.ts';

/** Name of an athlete's newest result, so that a new one is noticed once; changes of the same result are not new. */
function resultKey(athlete: FieldAthlete | undefined): string | null {
  if (!athlete?.latest || athlete.latest.state === 'recorded') return null;
  return `${athlete.athlete_id}.${athlete.latest.repetition_id}`;
}

/**
 * Whoever just ran shows at once; a tap shows someone else until the next result comes. While the coach writes a note,
 * nothing jumps.
 */
export function useChosenAthlete(view: FieldView) {
  const first = view.latest_athlete_id ?? view.athletes[0].athlete_id;
  const [chosen, setChosen] = useState(first);
  const latest = view.athletes.find((athlete) => athlete.athlete_id === view.latest_athlete_id);
  const key = resultKey(latest);
  const shown = useRef(key);
  useEffect(() => {
    if (key === null || key === shown.current || !latest) return;
    shown.current = key;
    const writing = document.activeElement instanceof HTMLTextAreaElement;
    if (!writing) setChosen(latest.athlete_id);
    if (speaking.peek()) speak(`${latest.name}. ${latest.sentence} ${latest.verdict.next.text}`);
  }, [key, latest]);
  const present = view.athletes.some((athlete) => athlete.athlete_id === chosen) ? chosen : first;
  const step = (by: number) => {
    const index = view.athletes.findIndex((athlete) => athlete.athlete_id === present);
    setChosen(view.athletes[(index + by + view.athletes.length) % view.athletes.length].athlete_id);
  };
  return { chosen: present, choose: setChosen, step };
}
