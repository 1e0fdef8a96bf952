import type { NewStrengthRecord, StrengthLog, StrengthRecord } from '../../../shared/schemas/coach/strength.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { CAUTIONS, STRENGTH_CAUTION } from '../words/cautions.ts';
import { coachQuery } from '../../store/coach-tables.ts';
import { strengthRatios } from './strength-ratios.ts';

/** An athlete's strength records, newest first, with the ratios made of them. */
export function strengthLog(store: Store, athlete_id: number): StrengthLog {
  const { body_mass_kg } = getAthlete(store, athlete_id);
  const records = store.all(
    coachQuery(store)
      .selectFrom('strength_records')
      .select([
        'strength_record_id',
        'athlete_id',
        'date',
        'lift',
        'load_kg',
        'load_unit',
        'sets',
        'repetitions',
        'note',
      ])
      .where('athlete_id', '=', athlete_id)
      .where('deleted_utc', 'is', null)
      .orderBy('date', 'desc')
      .orderBy('strength_record_id', 'desc'),
  ) as StrengthRecord[];
  return {
    athlete_id,
    body_mass_kg,
    records,
    ratios: strengthRatios(records, body_mass_kg),
    cautions: [STRENGTH_CAUTION, ...CAUTIONS],
  };
}

export function addStrengthRecord(store: Store, body: NewStrengthRecord): StrengthRecord {
  getAthlete(store, body.athlete_id);
  const record = { ...body, note: body.note ?? '' };
  const { id } = store.run(coachQuery(store).insertInto('strength_records').values(record));
  return { strength_record_id: id, ...record };
}
