import type { Group, GroupChange, NewGroup } from '../../shared/schemas/group.ts';
import { freshId } from './fresh-id.ts';
import { notFound } from './not-found.ts';
import { nowUtc, type Store } from './store.ts';

export function listGroups(store: Store, filter: { deleted?: boolean } = {}): Group[] {
  const rows = store.all(
    store.query
      .selectFrom('groups')
      .selectAll()
      .where('deleted_utc', filter.deleted ? 'is not' : 'is', null)
      .orderBy('name')
      .orderBy('group_id'),
  );
  return rows.map((row) => ({ ...row, athlete_ids: memberIds(store, row.group_id) }));
}

/** @throws FaultError GROUP_NOT_FOUND, also for a deleted one unless `withDeleted` */
export function getGroup(store: Store, groupId: number, withDeleted = false): Group {
  const row = store.first(store.query.selectFrom('groups').selectAll().where('group_id', '=', groupId));
  if (!row || (row.deleted_utc !== null && !withDeleted)) throw notFound('group', groupId);
  return { ...row, athlete_ids: memberIds(store, groupId) };
}

export function createGroup(store: Store, { athlete_ids, ...fields }: NewGroup): Group {
  return store.transaction(() => {
    const now = nowUtc();
    const { id } = store.run(
      store.query
        .insertInto('groups')
        .values({ group_id: freshId(store, 'groups'), ...fields, created_utc: now, updated_utc: now }),
    );
    setMembers(store, id, athlete_ids ?? []);
    return getGroup(store, id);
  });
}

export function changeGroup(store: Store, groupId: number, { athlete_ids, ...fields }: GroupChange): Group {
  return store.transaction(() => {
    getGroup(store, groupId);
    store.run(
      store.query
        .updateTable('groups')
        .set({ ...fields, updated_utc: nowUtc() })
        .where('group_id', '=', groupId),
    );
    if (athlete_ids) setMembers(store, groupId, athlete_ids);
    return getGroup(store, groupId);
  });
}

/** Marks a group as deleted (or takes the mark away); its athletes and sessions stay. */
export function markGroupDeleted(store: Store, groupId: number, deleted: boolean): void {
  getGroup(store, groupId, true);
  store.run(
    store.query
      .updateTable('groups')
      .set({ deleted_utc: deleted ? nowUtc() : null, updated_utc: nowUtc() })
      .where('group_id', '=', groupId),
  );
}

/** Members in running order, without deleted athletes. */
function memberIds(store: Store, groupId: number): number[] {
  return store
    .all(
      store.query
        .selectFrom('group_members')
        .innerJoin('athletes', 'athletes.athlete_id', 'group_members.athlete_id')
        .select('group_members.athlete_id')
        .where('group_id', '=', groupId)
        .where('athletes.deleted_utc', 'is', null)
        .orderBy('order_number'),
    )
    .map((row) => row.athlete_id);
}

function setMembers(store: Store, groupId: number, athleteIds: number[]): void {
  store.run(store.query.deleteFrom('group_members').where('group_id', '=', groupId));
  for (const [index, athleteId] of [...new Set(athleteIds)].entries()) {
    if (!store.first(store.query.selectFrom('athletes').select('athlete_id').where('athlete_id', '=', athleteId))) {
      throw notFound('athlete', athleteId);
    }
    store.run(
      store.query
        .insertInto('group_members')
        .values({ group_id: groupId, athlete_id: athleteId, order_number: index + 1 }),
    );
  }
}
