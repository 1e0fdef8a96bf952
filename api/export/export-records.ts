import { FaultError, fault } from '../../shared/fault.ts';
import type { ExportOrder, ResearchExport } from '../../shared/schemas/export.ts';
import { nowUtc, type Store } from '../store/store.ts';
import { VERSION } from '../version.ts';
import { select } from './selection.ts';

/**
 * Records that a selection leaves the house, before it does.
 * @throws FaultError EXPORT_EMPTY
 */
export function recordExport(store: Store, order: ExportOrder): ResearchExport {
  return store.transaction(() => {
    const selection = select(store, order);
    const { contacts } = store
      .prepare('SELECT sum(contacts) AS contacts FROM analyses WHERE analysis_id IN (SELECT value FROM json_each(?))')
      .get(JSON.stringify(selection.repetitions.map((r) => r.analysis_id))) as { contacts: number };
    const { lastInsertRowid } = store
      .prepare(
        `INSERT INTO research_exports (created_utc, export_order, athletes, left_out, repetitions, contacts, version)
         VALUES (?, ?, ?, ?, ?, ?, ?)`,
      )
      .run(
        nowUtc(),
        JSON.stringify(order),
        selection.athlete_ids.length,
        selection.left_out.length,
        selection.repetitions.length,
        contacts,
        VERSION,
      );
    const name = store.prepare('INSERT INTO research_export_athletes (export_id, athlete_id) VALUES (?, ?)');
    for (const id of selection.athlete_ids) name.run(lastInsertRowid, id);
    return getExport(store, Number(lastInsertRowid));
  });
}

/** Newest first. */
export function listExports(store: Store): ResearchExport[] {
  return (store.prepare('SELECT * FROM research_exports ORDER BY export_id DESC').all() as Row[]).map(toExport);
}

/** @throws FaultError EXPORT_NOT_FOUND */
export function getExport(store: Store, exportId: number): ResearchExport {
  const row = store.prepare('SELECT * FROM research_exports WHERE export_id = ?').get(exportId) as Row | undefined;
  if (row) return toExport(row);
  throw new FaultError(fault('EXPORT_NOT_FOUND', { export_id: exportId }, { export_id: exportId }));
}

type Row = Omit<ResearchExport, 'order'> & { export_order: string };

function toExport({ export_order, ...row }: Row): ResearchExport {
  return { ...row, order: JSON.parse(export_order) as ExportOrder };
}
