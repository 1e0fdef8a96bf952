import { type Fault, FaultError, fault } from '../../shared/fault.ts';
import type { Reanalysis, ReanalysisReport } from '../../shared/schemas/reanalysis.ts';
import { changesOf } from './figure-changes.ts';
import { nowUtc, type Store } from './store.ts';

/** Notes a re-analysis of these repetitions with their present analyses. @returns its identifier */
export function createReanalysis(store: Store, repetitionIds: number[], settings: unknown): number {
  return store.transaction(() => {
    const { lastInsertRowid } = store
      .prepare("INSERT INTO reanalyses (state, settings, created_utc) VALUES ('working', ?, ?)")
      .run(settings === undefined ? null : JSON.stringify(settings), nowUtc());
    const id = Number(lastInsertRowid);
    const insert = store.prepare(
      `INSERT INTO reanalysis_items (reanalysis_id, repetition_id, before_analysis_id)
       SELECT ?, repetition_id, analysis_id FROM repetitions WHERE repetition_id = ?`,
    );
    for (const repetitionId of repetitionIds) insert.run(id, repetitionId);
    return id;
  });
}

/** @throws FaultError REANALYSIS_NOT_FOUND */
export function getReanalysis(store: Store, reanalysisId: number): Reanalysis {
  const found = listReanalyses(store).find((one) => one.reanalysis_id === reanalysisId);
  if (found) return found;
  throw new FaultError(fault('REANALYSIS_NOT_FOUND', { reanalysis_id: reanalysisId }, { reanalysis_id: reanalysisId }));
}

/** All of them, newest first. */
export function listReanalyses(store: Store): Reanalysis[] {
  const rows = store
    .prepare(
      `SELECT reanalyses.*, count(repetition_id) AS total, coalesce(sum(items.state = 'done'), 0) AS done,
         coalesce(sum(items.state = 'failed'), 0) AS failed
       FROM reanalyses LEFT JOIN reanalysis_items AS items USING (reanalysis_id)
       GROUP BY reanalysis_id ORDER BY reanalysis_id DESC`,
    )
    .all() as (Omit<Reanalysis, 'accepted' | 'settings'> & { accepted: number; settings: string | null })[];
  return rows.map((row) => ({
    ...row,
    accepted: row.accepted === 1,
    settings: row.settings === null ? null : JSON.parse(row.settings),
  }));
}

/** With its failures and the comparison of new with old. */
export function getReanalysisReport(store: Store, reanalysisId: number): ReanalysisReport {
  const failures = store
    .prepare("SELECT repetition_id, fault FROM reanalysis_items WHERE reanalysis_id = ? AND state = 'failed'")
    .all(reanalysisId) as { repetition_id: number; fault: string }[];
  return {
    ...getReanalysis(store, reanalysisId),
    failures: failures.map((row) => ({
      repetition_id: row.repetition_id,
      fault: JSON.parse(row.fault) as Fault,
    })),
    changes: changesOf(store, reanalysisId),
  };
}

/** Repetitions that are still to be analysed, in their order. */
export function waitingRepetitions(store: Store, reanalysisId: number): number[] {
  const rows = store
    .prepare("SELECT repetition_id FROM reanalysis_items WHERE reanalysis_id = ? AND state = 'waiting'")
    .all(reanalysisId) as { repetition_id: number }[];
  return rows.map((row) => row.repetition_id);
}

export function markItem(
  store: Store,
  reanalysisId: number,
  repetitionId: number,
  end: { analysis_id: number } | { fault: Fault },
): void {
  const done = 'analysis_id' in end;
  store
    .prepare(
      'UPDATE reanalysis_items SET state = ?, after_analysis_id = ?, fault = ? WHERE reanalysis_id = ? AND repetition_id = ?',
    )
    .run(
      done ? 'done' : 'failed',
      done ? end.analysis_id : null,
      done ? null : JSON.stringify(end.fault),
      reanalysisId,
      repetitionId,
    );
}

export function markReanalysis(store: Store, reanalysisId: number, state: Reanalysis['state']): void {
  store
    .prepare('UPDATE reanalyses SET state = ?, finished_utc = ? WHERE reanalysis_id = ?')
    .run(state, state === 'working' ? null : nowUtc(), reanalysisId);
}

/**
 * Makes the new analyses the ones that are shown, or the old ones again. A repetition whose analysis was changed otherwise in
 * the meantime is left alone.
 * @returns how many repetitions changed
 */
export function switchAnalyses(store: Store, reanalysisId: number, accept: boolean): number {
  getReanalysis(store, reanalysisId);
  const [from, to] = accept ? ['before', 'after'] : ['after', 'before'];
  return store.transaction(() => {
    const { changes } = store
      .prepare(
        `UPDATE repetitions SET analysis_id = items.${to}_analysis_id, state = iif(items.${to}_analysis_id IS NULL, 'recorded', 'analysed'),
           fault = NULL, updated_utc = ?
         FROM reanalysis_items AS items
         WHERE items.reanalysis_id = ? AND items.repetition_id = repetitions.repetition_id AND items.state = 'done'
           AND repetitions.analysis_id IS items.${from}_analysis_id`,
      )
      .run(nowUtc(), reanalysisId);
    store.prepare('UPDATE reanalyses SET accepted = ? WHERE reanalysis_id = ?').run(accept ? 1 : 0, reanalysisId);
    return changes;
  });
}
