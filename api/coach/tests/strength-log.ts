import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { NewStrengthRecord, StrengthLog, StrengthRecord } from '../../../shared/schemas/coach/strength.ts';
import { ADULT_FROM, ageAt } from '../../../shared/dates.ts';
import { getAthlete } from '../../store/athletes.ts';
import type { Store } from '../../store/store.ts';
import { caution, cautionsFor } from '../words/cautions.ts';
import { coachQuery } from '../../store/coach-tables.ts';
import { bestOfEachDay, seriesTitle } from './sprint-test-view.ts';
import { groupSeries } from './sprint-test-change.ts';
import { listSprintTests } from './sprint-tests.ts';
import { squatCourse, strengthRatios } from './strength-ratios.ts';

/** An athlete's strength records, newest first, with the ratios made of them. */
export function strengthLog(
  store: Store,
  athlete_id: number,
  today: string,
  words: JudgementWords = JUDGEMENT_EN,
): StrengthLog {
  const { body_mass_kg, birth_date } = getAthlete(store, athlete_id);
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
    ratios: strengthRatios(records, body_mass_kg, birth_date !== null && ageAt(birth_date, today) < ADULT_FROM, words),
    over_time: { squat: squatCourse(records), ...mostTested(store, athlete_id, words) },
    cautions: [caution('STRENGTH_SUPERVISED', words), ...cautionsFor([], words)],
  };
}

/** The series with most days of tests, the fastest of each day. */
function mostTested(
  store: Store,
  athlete_id: number,
  words: JudgementWords,
): Pick<StrengthLog['over_time'], 'sprint_title' | 'sprints'> {
  const series = groupSeries(listSprintTests(store, athlete_id))
    .map(bestOfEachDay)
    .sort((a, b) => b.length - a.length)[0];
  if (!series) return { sprint_title: '', sprints: [] };
  return { sprint_title: seriesTitle(series[0], words), sprints: series.map(({ date, time_s }) => ({ date, time_s })) };
}

export function addStrengthRecord(store: Store, body: NewStrengthRecord): StrengthRecord {
  getAthlete(store, body.athlete_id);
  const record = { ...body, note: body.note ?? '' };
  const { id } = store.run(coachQuery(store).insertInto('strength_records').values(record));
  return { strength_record_id: id, ...record };
}
