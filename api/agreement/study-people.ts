import type { Caller } from '../access/caller.ts';
import { Pseudonyms } from '../export/pseudonyms.ts';
import { getAthlete } from '../store/athletes.ts';
import type { Store } from '../store/store.ts';

/** Whose runs a study may compare, and by what name. */
export interface StudyPeople {
  mayRead(athlete_id: number): boolean;
  nameOf(athlete_id: number): string;
}

/** The coach sees names and everybody; a device for studies the pseudonyms of exports, of those who have agreed. */
export function studyPeople(store: Store, caller: Pick<Caller, 'role'>): StudyPeople {
  if (caller.role === 'coach')
    return { mayRead: () => true, nameOf: (athlete_id) => getAthlete(store, athlete_id, true).name };
  const names = new Pseudonyms(store);
  const consent = store.prepare("SELECT 1 FROM research_consents WHERE athlete_id = ? AND status = 'given'");
  return {
    mayRead: (athlete_id) => consent.get(athlete_id) !== undefined,
    nameOf: (athlete_id) => names.athlete(athlete_id),
  };
}
