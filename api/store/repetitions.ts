import { FIGURE_COLUMNS } from '../../shared/schemas/figures.ts';
import type {
  NewRepetition,
  RepetitionChange,
  RepetitionFigures,
  RepetitionLine,
} from '../../shared/schemas/repetition.ts';
import { freshId } from './fresh-id.ts';
import { getAthlete } from './athletes.ts';
import { notFound } from './not-found.ts';
import { getSession } from './sessions.ts';
import { nowUtc, type Store } from './store.ts';

export interface RepetitionFilter {
  session_id?: number;
  athlete_id?: number;
  effort_percent?: number;
  course_distance_m?: number;
  from?: string;
  to?: string;
  state?: RepetitionLine['state'];
  deleted?: boolean;
  /** Only these. */
  repetition_ids?: number[];
}

/** Repetitions by date and running order, each with its figures; those of deleted sessions and athletes are left out. */
export function listRepetitions(store: Store, filter: RepetitionFilter = {}): RepetitionLine[] {
  let query = repetitionLines(store)
    .innerJoin('athletes', 'athletes.athlete_id', 'repetitions.athlete_id')
    .where('repetitions.deleted_utc', filter.deleted ? 'is not' : 'is', null)
    .where('sessions.deleted_utc', 'is', null)
    .where('athletes.deleted_utc', 'is', null)
    .orderBy('sessions.session_date')
    .orderBy('repetitions.session_id')
    .orderBy('repetitions.order_number')
    .orderBy('repetitions.repetition_id');
  if (filter.session_id !== undefined) query = query.where('repetitions.session_id', '=', filter.session_id);
  if (filter.athlete_id !== undefined) query = query.where('repetitions.athlete_id', '=', filter.athlete_id);
  if (filter.effort_percent !== undefined) query = query.where('effort_percent', '=', filter.effort_percent);
  if (filter.course_distance_m !== undefined) query = query.where('course_distance_m', '=', filter.course_distance_m);
  if (filter.repetition_ids !== undefined) {
    query = query.where('repetitions.repetition_id', 'in', filter.repetition_ids);
  }
  if (filter.state !== undefined) query = query.where('repetitions.state', '=', filter.state);
  if (filter.from !== undefined) query = query.where('sessions.session_date', '>=', filter.from);
  if (filter.to !== undefined) query = query.where('sessions.session_date', '<=', filter.to);
  return store.all(query).map(toRepetitionLine);
}

/** @throws FaultError REPETITION_NOT_FOUND, also for a deleted one unless `withDeleted` */
export function getRepetitionLine(store: Store, repetitionId: number, withDeleted = false): RepetitionLine {
  const row = store.first(repetitionLines(store).where('repetitions.repetition_id', '=', repetitionId));
  if (!row || (row.deleted_utc !== null && !withDeleted)) throw notFound('repetition', repetitionId);
  return toRepetitionLine(row);
}

/** Adds a repetition; without `order_number` it comes last in its session. */
export function createRepetition(store: Store, { splits, ...fields }: NewRepetition): RepetitionLine {
  return store.transaction(() => {
    getSession(store, fields.session_id);
    getAthlete(store, fields.athlete_id);
    const now = nowUtc();
    const { id } = store.run(
      store.query.insertInto('repetitions').values({
        repetition_id: freshId(store, 'repetitions'),
        ...fields,
        splits: JSON.stringify(splits ?? []),
        order_number: fields.order_number ?? nextOrderNumber(store, fields.session_id),
        created_utc: now,
        updated_utc: now,
      }),
    );
    return getRepetitionLine(store, id);
  });
}

export function changeRepetition(
  store: Store,
  repetitionId: number,
  { splits, ...fields }: RepetitionChange,
): RepetitionLine {
  return store.transaction(() => {
    getRepetitionLine(store, repetitionId);
    store.run(
      store.query
        .updateTable('repetitions')
        .set({ ...fields, ...(splits ? { splits: JSON.stringify(splits) } : {}), updated_utc: nowUtc() })
        .where('repetition_id', '=', repetitionId),
    );
    return getRepetitionLine(store, repetitionId);
  });
}

/** Marks a repetition as deleted (or takes the mark away); recordings and analyses stay. */
export function markRepetitionDeleted(store: Store, repetitionId: number, deleted: boolean): void {
  getRepetitionLine(store, repetitionId, true);
  store.run(
    store.query
      .updateTable('repetitions')
      .set({ deleted_utc: deleted ? nowUtc() : null, updated_utc: nowUtc() })
      .where('repetition_id', '=', repetitionId),
  );
}

export function nextOrderNumber(store: Store, sessionId: number): number {
  const row = store.first(
    store.query
      .selectFrom('repetitions')
      .select(({ fn }) => fn.max('order_number').as('last'))
      .where('session_id', '=', sessionId)
      .where('deleted_utc', 'is', null),
  );
  return (row?.last ?? 0) + 1;
}

function repetitionLines(store: Store) {
  return store.query
    .selectFrom('repetitions')
    .innerJoin('sessions', 'sessions.session_id', 'repetitions.session_id')
    .leftJoin('analyses', 'analyses.analysis_id', 'repetitions.analysis_id')
    .selectAll('repetitions')
    .select('sessions.session_date')
    .select(FIGURE_COLUMNS.map((column) => `analyses.${column} as figure_${column}` as const));
}

type RepetitionRow =
  ReturnType<ReturnType<typeof repetitionLines>['execute']> extends Promise<(infer Row)[]> ? Row : never;

function toRepetitionLine(row: RepetitionRow): RepetitionLine {
  const line: Record<string, unknown> = {};
  const figures: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(row)) {
    if (name.startsWith('figure_')) figures[name.slice('figure_'.length)] = value;
    else line[name] = value;
  }
  return {
    ...(line as Omit<RepetitionRow, `figure_${string}`>),
    clock: row.clock as RepetitionLine['clock'],
    timing_method: row.timing_method as RepetitionLine['timing_method'],
    start_style: row.start_style as RepetitionLine['start_style'],
    state: row.state as RepetitionLine['state'],
    splits: JSON.parse(row.splits) as RepetitionLine['splits'],
    fault: row.fault === null ? null : (JSON.parse(row.fault) as RepetitionLine['fault']),
    figures: row.analysis_id === null ? null : (figures as unknown as RepetitionFigures),
  };
}
