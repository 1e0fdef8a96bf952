import type { Selectable } from 'kysely';
import type { Layout } from '../../shared/schemas/layout.ts';
import type { NewSavedLayout, SavedLayout, SavedLayoutChange } from '../../shared/schemas/saved-layout.ts';
import { notFound } from './not-found.ts';
import { nowUtc, type Store } from './store.ts';
import type { LayoutsTable } from './tables.ts';

/** Saved layouts by name; deleted ones instead when asked. */
export function listLayouts(store: Store, filter: { deleted?: boolean } = {}): SavedLayout[] {
  return store
    .all(
      store.query
        .selectFrom('layouts')
        .selectAll()
        .where('deleted_utc', filter.deleted ? 'is not' : 'is', null)
        .orderBy('name')
        .orderBy('layout_id'),
    )
    .map(toSavedLayout);
}

/** Layouts for reading a file: where several are of one shape, the one that was kept or changed last comes first. */
export function layoutsNewestFirst(store: Store): Layout[] {
  return listLayouts(store)
    .sort((a, b) => (a.updated_utc < b.updated_utc ? 1 : -1))
    .map((saved) => saved.layout);
}

/** @throws FaultError LAYOUT_NOT_FOUND, also for a deleted one unless `withDeleted` */
export function getLayout(store: Store, layoutId: number, withDeleted = false): SavedLayout {
  const row = store.first(store.query.selectFrom('layouts').selectAll().where('layout_id', '=', layoutId));
  if (!row || (row.deleted_utc !== null && !withDeleted)) throw notFound('layout', layoutId);
  return toSavedLayout(row);
}

export function createLayout(store: Store, { name, layout }: NewSavedLayout): SavedLayout {
  const now = nowUtc();
  const { id } = store.run(
    store.query.insertInto('layouts').values({
      name,
      fingerprint: layout.fingerprint,
      layout: JSON.stringify({ ...layout, name }),
      created_utc: now,
      updated_utc: now,
    }),
  );
  return getLayout(store, id);
}

export function changeLayout(store: Store, layoutId: number, change: SavedLayoutChange): SavedLayout {
  const before = getLayout(store, layoutId);
  const name = change.name ?? before.name;
  const layout: Layout = { ...(change.layout ?? before.layout), name };
  store.run(
    store.query
      .updateTable('layouts')
      .set({ name, fingerprint: layout.fingerprint, layout: JSON.stringify(layout), updated_utc: nowUtc() })
      .where('layout_id', '=', layoutId),
  );
  return getLayout(store, layoutId);
}

/** Marks a layout as deleted (or takes the mark away): it is no longer used for new files. */
export function markLayoutDeleted(store: Store, layoutId: number, deleted: boolean): void {
  getLayout(store, layoutId, true);
  store.run(
    store.query
      .updateTable('layouts')
      .set({ deleted_utc: deleted ? nowUtc() : null, updated_utc: nowUtc() })
      .where('layout_id', '=', layoutId),
  );
}

function toSavedLayout({ fingerprint: _, layout, ...row }: Selectable<LayoutsTable>): SavedLayout {
  return { ...row, layout: JSON.parse(layout) as Layout };
}
