import type { NewSprintTest, SprintTest, SprintTestChange } from '../../../shared/schemas/coach/sprint-test.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import { getAthlete } from '../../store/athletes.ts';
import { notFound } from '../../store/not-found.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { coachQuery } from '../../store/coach-tables.ts';
import { recordNotFound } from '../soft-deletion.ts';
import { timeOfWatches } from './sprint-time-rules.ts';

const COLUMNS = [
  'sprint_test_id',
  'athlete_id',
  'date',
  'distance_m',
  'distance_unit',
  'start_style',
  'timing_method',
  'time_s',
  'watches_s',
  'splits',
  'wind_mps',
  'repetition_id',
  'note',
] as const;

/** An athlete's sprint tests, oldest first. */
export function listSprintTests(store: Store, athlete_id: number): SprintTest[] {
  return sprintTestRows(store)
    .all(athlete_id)
    .map((row) => toSprintTest(row as Row));
}

function sprintTestRows(store: Store) {
  return store.prepare(
    `SELECT ${COLUMNS.join(', ')} FROM sprint_tests WHERE athlete_id = ? AND deleted_utc IS NULL ORDER BY date, sprint_test_id`,
  );
}

/** @throws FaultError COACH_RECORD_NOT_FOUND */
export function getSprintTest(store: Store, sprint_test_id: number): SprintTest {
  const row = store.first(
    coachQuery(store).selectFrom('sprint_tests').select(COLUMNS).where('sprint_test_id', '=', sprint_test_id),
  );
  if (!row) throw recordNotFound('sprint_tests', sprint_test_id);
  return toSprintTest(row);
}

/** Keeps a test. Several watches count by rule; splits must rise in distance and time and end before the finish. */
export function addSprintTest(store: Store, body: NewSprintTest): SprintTest {
  getAthlete(store, body.athlete_id);
  const watches_s = body.watches_s ?? [];
  const time_s = body.time_s ?? (watches_s.length > 0 ? timeOfWatches(watches_s) : null);
  if (time_s === null) {
    throw new FaultError(fault('SPRINT_TIME_MISSING', {}, { field: 'time_s', value: null }));
  }
  checkSplits(body.splits ?? [], body.distance_m, time_s);
  checkRepetition(store, body.athlete_id, body.repetition_id ?? null);
  const { id } = store.run(
    coachQuery(store)
      .insertInto('sprint_tests')
      .values({
        ...body,
        time_s,
        distance_unit: body.distance_unit ?? 'yd',
        start_style: body.start_style ?? 'standing',
        wind_mps: body.wind_mps ?? null,
        repetition_id: body.repetition_id ?? null,
        note: body.note ?? '',
        watches_s: JSON.stringify(watches_s),
        splits: JSON.stringify(body.splits ?? []),
      }),
  );
  return getSprintTest(store, id);
}

export function changeSprintTest(store: Store, sprint_test_id: number, change: SprintTestChange): SprintTest {
  const before = getSprintTest(store, sprint_test_id);
  const watches_s = change.watches_s ?? before.watches_s;
  const time_s = change.time_s ?? (change.watches_s?.length ? timeOfWatches(change.watches_s) : before.time_s);
  const after = { ...before, ...change, watches_s, time_s };
  checkSplits(after.splits, after.distance_m, after.time_s);
  if (change.repetition_id !== undefined) checkRepetition(store, before.athlete_id, change.repetition_id);
  const { sprint_test_id: _, athlete_id: __, ...fields } = after;
  store.run(
    coachQuery(store)
      .updateTable('sprint_tests')
      .set({ ...fields, watches_s: JSON.stringify(watches_s), splits: JSON.stringify(after.splits) })
      .where('sprint_test_id', '=', sprint_test_id),
  );
  return getSprintTest(store, sprint_test_id);
}

/** A test may name only a repetition of the same athlete. @throws FaultError REPETITION_NOT_FOUND */
function checkRepetition(store: Store, athlete_id: number, repetition_id: number | null): void {
  if (repetition_id === null) return;
  if (getRepetitionLine(store, repetition_id).athlete_id !== athlete_id) throw notFound('repetition', repetition_id);
}

/** @throws FaultError SPLITS_NOT_RISING */
function checkSplits(splits: SprintTest['splits'], distance_m: number, time_s: number): void {
  let last = { distance_m: 0, split_time_s: 0 };
  for (const split of splits) {
    const beyond = split.distance_m > distance_m + 0.01 || split.split_time_s > time_s + 0.001;
    if (split.distance_m > last.distance_m && split.split_time_s > last.split_time_s && !beyond) {
      last = split;
      continue;
    }
    throw new FaultError(
      fault(
        'SPLITS_NOT_RISING',
        {
          split_s: split.split_time_s,
          split_m: split.distance_m,
          before_s: last.split_time_s,
          before_m: last.distance_m,
          finish_s: time_s,
          finish_m: distance_m,
        },
        { field: 'splits', value: split.split_time_s },
      ),
    );
  }
}

type Row = Omit<SprintTest, 'watches_s' | 'splits' | 'distance_unit' | 'start_style' | 'timing_method'> & {
  watches_s: string;
  splits: string;
  distance_unit: string;
  start_style: string;
  timing_method: string;
};

function toSprintTest(row: Row): SprintTest {
  return {
    ...row,
    distance_unit: row.distance_unit as SprintTest['distance_unit'],
    start_style: row.start_style as SprintTest['start_style'],
    timing_method: row.timing_method as SprintTest['timing_method'],
    watches_s: JSON.parse(row.watches_s) as number[],
    splits: JSON.parse(row.splits) as SprintTest['splits'],
  };
}
