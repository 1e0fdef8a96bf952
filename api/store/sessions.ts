import { type Selectable, sql } from 'kysely';
import type { NewSession, Session, SessionChange } from '../../shared/schemas/session.ts';
import { freshId } from './fresh-id.ts';
import { getAthlete } from './athletes.ts';
import { getGroup } from './groups.ts';
import { notFound } from './not-found.ts';
import { nowUtc, type Store } from './store.ts';
import type { SessionsTable } from './tables.ts';

export interface SessionFilter {
  athlete_id?: number;
  group_id?: number;
  from?: string;
  to?: string;
  deleted?: boolean;
}

/**
 * Sessions, newest first. An athlete's sessions are those held for them and those with a repetition of theirs.
 * @param page which of them, by their place in that order; all without it. What is not of the page is not counted through
 */
export function listSessions(
  store: Store,
  filter: SessionFilter = {},
  page: { limit?: number; offset?: number } | null = null,
): Session[] {
  let query = countedSessions(store).orderBy('session_date', 'desc').orderBy('sessions.session_id', 'desc');
  const some = sessionsThat(store, filter).select('sessions.session_id');
  query = query.where(
    'sessions.session_id',
    'in',
    page === null
      ? some
      : some
          .orderBy('session_date', 'desc')
          .orderBy('sessions.session_id', 'desc')
          .limit(page.limit ?? -1)
          .offset(page.offset ?? 0),
  );
  return store.all(query).map(toSession);
}

/** How many there are. */
export function countSessions(store: Store, filter: SessionFilter): number {
  const row = store.first(sessionsThat(store, filter).select(({ fn }) => fn.countAll<number>().as('n')));
  return row?.n ?? 0;
}

function sessionsThat(store: Store, filter: SessionFilter) {
  let query = store.query.selectFrom('sessions').where('sessions.deleted_utc', filter.deleted ? 'is not' : 'is', null);
  if (filter.group_id !== undefined) query = query.where('sessions.group_id', '=', filter.group_id);
  if (filter.from !== undefined) query = query.where('session_date', '>=', filter.from);
  if (filter.to !== undefined) query = query.where('session_date', '<=', filter.to);
  const athleteId = filter.athlete_id;
  if (athleteId === undefined) return query;
  return query.where(({ or, eb, exists, selectFrom }) =>
    or([
      eb('sessions.athlete_id', '=', athleteId),
      exists(
        selectFrom('repetitions as own')
          .select('own.repetition_id')
          .whereRef('own.session_id', '=', 'sessions.session_id')
          .where('own.athlete_id', '=', athleteId)
          .where('own.deleted_utc', 'is', null),
      ),
    ]),
  );
}

/** @throws FaultError SESSION_NOT_FOUND, also for a deleted one unless `withDeleted` */
export function getSession(store: Store, sessionId: number, withDeleted = false): Session {
  const row = store.first(countedSessions(store).where('sessions.session_id', '=', sessionId));
  if (!row || (row.deleted_utc !== null && !withDeleted)) throw notFound('session', sessionId);
  return toSession(row);
}

export function createSession(store: Store, fields: NewSession): Session {
  return store.transaction(() => {
    checkReferences(store, fields);
    const now = nowUtc();
    const { id } = store.run(
      store.query
        .insertInto('sessions')
        .values({ session_id: freshId(store, 'sessions'), ...fields, created_utc: now, updated_utc: now }),
    );
    return getSession(store, id);
  });
}

export function changeSession(store: Store, sessionId: number, fields: SessionChange): Session {
  return store.transaction(() => {
    getSession(store, sessionId);
    checkReferences(store, fields);
    store.run(
      store.query
        .updateTable('sessions')
        .set({ ...fields, updated_utc: nowUtc() })
        .where('session_id', '=', sessionId),
    );
    return getSession(store, sessionId);
  });
}

/** Marks a session as deleted (or takes the mark away); its repetitions stay in it. */
export function markSessionDeleted(store: Store, sessionId: number, deleted: boolean): void {
  getSession(store, sessionId, true);
  store.run(
    store.query
      .updateTable('sessions')
      .set({ deleted_utc: deleted ? nowUtc() : null, updated_utc: nowUtc() })
      .where('session_id', '=', sessionId),
  );
}

function checkReferences(store: Store, fields: SessionChange): void {
  if (fields.athlete_id) getAthlete(store, fields.athlete_id);
  if (fields.group_id) getGroup(store, fields.group_id);
}

function countedSessions(store: Store) {
  return store.query
    .selectFrom('sessions')
    .selectAll('sessions')
    .select(({ selectFrom }) => {
      const repetitions = selectFrom('repetitions')
        .whereRef('repetitions.session_id', '=', 'sessions.session_id')
        .where('repetitions.deleted_utc', 'is', null);
      return [
        repetitions.select(({ fn }) => fn.countAll<number>().as('n')).as('repetition_count'),
        repetitions.select(({ fn }) => fn.count<number>('analysis_id').as('n')).as('analysed_count'),
        repetitions.select(sql<string>`json_group_array(DISTINCT repetitions.athlete_id)`.as('ids')).as('athlete_ids'),
      ];
    });
}

type CountedSession = Selectable<SessionsTable> & {
  repetition_count: number | null;
  analysed_count: number | null;
  athlete_ids: string | null;
};

function toSession(row: CountedSession): Session {
  return {
    ...row,
    repetition_count: row.repetition_count ?? 0,
    analysed_count: row.analysed_count ?? 0,
    athlete_ids: JSON.parse(row.athlete_ids ?? '[]') as number[],
  };
}
