import { isStandIn } from '../../../shared/dates.ts';
import type { Contact } from '../../../shared/analysis.ts';
import type { Store } from '../../store/store.ts';
import { exportedAge } from '../exported-age.ts';
import { label, tsv } from './names.ts';
import type { Pseudonyms } from '../pseudonyms.ts';
import type { SelectedRepetition, Selection } from '../selection.ts';
import { type Body, bodyBands } from '../privacy/bands.ts';
import { fictiveDates } from '../privacy/fictive-dates.ts';

/** A session as one athlete had it. */
export const sessionKey = ({ session_id, athlete_id }: SelectedRepetition) => `${athlete_id} ${session_id}`;

/** Fictive date of every session of every athlete; null where nobody knows the day. */
export function fictiveDatesOf(selection: Selection, names: Pseudonyms): Map<string, string | null> {
  const dates = new Map<string, string | null>();
  for (const id of selection.athlete_ids) {
    const own = selection.repetitions.filter(({ athlete_id }) => athlete_id === id);
    const sessions = [...new Map(own.map((repetition) => [sessionKey(repetition), repetition])).values()];
    const moved = fictiveDates(
      sessions.map(({ session_date }) => (isStandIn(session_date) ? null : session_date)),
      names.dayShift(id),
    );
    for (const [i, session] of sessions.entries()) dates.set(sessionKey(session), moved[i]);
  }
  return dates;
}

/** participants.tsv in bands. */
export function openParticipants(store: Store, selection: Selection, names: Pseudonyms): string {
  const read = store.prepare('SELECT * FROM athletes WHERE athlete_id = ?');
  const bands = bodyBands(
    selection.athlete_ids.map((id) => {
      const row = read.get(id) as Record<string, string | number | null>;
      const first = selection.repetitions.find((r) => r.athlete_id === id)!;
      return { ...row, age_years: exportedAge(row.birth_date as string | null, first.session_date) } as unknown as Body;
    }),
  );
  return tsv(
    ['participant_id', 'species', 'sex', 'age_band', 'body_mass_band', 'stature_band'],
    selection.athlete_ids.map((id, i) => [
      `sub-${label(names.athlete(id))}`,
      'homo sapiens',
      bands[i].sex,
      bands[i].age_band,
      bands[i].body_mass_band,
      bands[i].stature_band,
    ]),
  );
}

/** A contact as it would be measured of somebody whose body is not known. */
export function withoutBody(contact: Contact): Contact {
  const reasons = { ...contact.reasons };
  for (const name of BODY_QUANTITIES) for (const key of [name, `${name}_u`]) delete reasons[key];
  return {
    ...contact,
    ...Object.fromEntries(
      BODY_QUANTITIES.flatMap((name) => [
        [name, null],
        [`${name}_u`, null],
      ]),
    ),
    reasons,
  };
}

/** A body mass could be worked out from these. */
const BODY_QUANTITIES = ['vertical_stiffness_kn_per_m', 'leg_stiffness_kn_per_m'];

export const OPEN_PARTICIPANTS_SIDECAR = {
  species: { Description: 'Species of the participant.' },
  sex: { Description: 'As given by the participant; n/a where too few of the set share it.' },
  age_band: { Description: 'Completed years at the first session, in a band; n/a where too few of the set share it.' },
  body_mass_band: { Description: 'Last known body mass, in a band; n/a where too few of the set share it.' },
  stature_band: { Description: 'Last known stature, in a band; n/a where too few of the set share it.' },
};
