import type { Selectable } from 'kysely';
import type { Athlete, AthleteChange, NewAthlete } from '../../shared/schemas/athlete.ts';
import { freshId } from './fresh-id.ts';
import { notFound } from './not-found.ts';
import { nowUtc, type Store } from './store.ts';
import type { AthletesTable } from './tables.ts';

/** Athletes by name; deleted ones instead when asked. */
export function listAthletes(store: Store, filter: { group_id?: number; deleted?: boolean } = {}): Athlete[] {
  let query = store.query
    .selectFrom('athletes')
    .selectAll()
    .where('deleted_utc', filter.deleted ? 'is not' : 'is', null)
    .orderBy('name')
    .orderBy('athlete_id');
  if (filter.group_id !== undefined) {
    query = query.where('athlete_id', 'in', (members) =>
      members.selectFrom('group_members').select('athlete_id').where('group_id', '=', filter.group_id!),
    );
  }
  const groupIds = groupIdsByAthlete(store);
  return store.all(query).map((row) => toAthlete(row, groupIds.get(row.athlete_id) ?? []));
}

/** @throws FaultError ATHLETE_NOT_FOUND, also for a deleted one unless `withDeleted` */
export function getAthlete(store: Store, athleteId: number, withDeleted = false): Athlete {
  const row = store.first(store.query.selectFrom('athletes').selectAll().where('athlete_id', '=', athleteId));
  if (!row || (row.deleted_utc !== null && !withDeleted)) throw notFound('athlete', athleteId);
  return toAthlete(row, groupIdsByAthlete(store, athleteId).get(athleteId) ?? []);
}

export function createAthlete(store: Store, { group_ids, ...fields }: NewAthlete): Athlete {
  return store.transaction(() => {
    const now = nowUtc();
    const { id } = store.run(
      store.query
        .insertInto('athletes')
        .values({ athlete_id: freshId(store, 'athletes'), ...fields, created_utc: now, updated_utc: now }),
    );
    setGroups(store, id, group_ids ?? []);
    return getAthlete(store, id);
  });
}

export function changeAthlete(store: Store, athleteId: number, { group_ids, ...fields }: AthleteChange): Athlete {
  return store.transaction(() => {
    getAthlete(store, athleteId);
    store.run(
      store.query
        .updateTable('athletes')
        .set({ ...fields, updated_utc: nowUtc() })
        .where('athlete_id', '=', athleteId),
    );
    if (group_ids) setGroups(store, athleteId, group_ids);
    return getAthlete(store, athleteId);
  });
}

/** Marks an athlete as deleted (or takes the mark away); everything stored stays. */
export function markAthleteDeleted(store: Store, athleteId: number, deleted: boolean): void {
  getAthlete(store, athleteId, true);
  store.run(
    store.query
      .updateTable('athletes')
      .set({ deleted_utc: deleted ? nowUtc() : null, updated_utc: nowUtc() })
      .where('athlete_id', '=', athleteId),
  );
}

function setGroups(store: Store, athleteId: number, groupIds: number[]): void {
  const members = store.query;
  const keep = new Set(groupIds);
  const present = groupIdsByAthlete(store, athleteId).get(athleteId) ?? [];
  for (const groupId of present.filter((id) => !keep.has(id))) {
    store.run(members.deleteFrom('group_members').where('group_id', '=', groupId).where('athlete_id', '=', athleteId));
  }
  for (const groupId of [...keep].filter((id) => !present.includes(id))) {
    if (!store.first(store.query.selectFrom('groups').select('group_id').where('group_id', '=', groupId))) {
      throw notFound('group', groupId);
    }
    const last = store.first(
      members
        .selectFrom('group_members')
        .select(({ fn }) => fn.max('order_number').as('last'))
        .where('group_id', '=', groupId),
    );
    store.run(
      members
        .insertInto('group_members')
        .values({ group_id: groupId, athlete_id: athleteId, order_number: (last?.last ?? 0) + 1 }),
    );
  }
}

function groupIdsByAthlete(store: Store, athleteId?: number): Map<number, number[]> {
  let query = store.query.selectFrom('group_members').select(['athlete_id', 'group_id']).orderBy('group_id');
  if (athleteId !== undefined) query = query.where('athlete_id', '=', athleteId);
  const ids = new Map<number, number[]>();
  for (const row of store.all(query)) ids.set(row.athlete_id, [...(ids.get(row.athlete_id) ?? []), row.group_id]);
  return ids;
}

function toAthlete(row: Selectable<AthletesTable>, groupIds: number[]): Athlete {
  return { ...row, sex: row.sex as Athlete['sex'], group_ids: groupIds };
}
