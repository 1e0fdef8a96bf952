import { FaultError, fault } from '../../shared/fault.ts';
import type { ExportOrder } from '../../shared/schemas/export.ts';
import type { Store } from '../store/store.ts';

/** One analysed repetition of the selection, with its athlete and session. */
export interface SelectedRepetition {
  repetition_id: number;
  analysis_id: number;
  athlete_id: number;
  session_id: number;
  session_date: string;
}

export interface Selection {
  repetitions: SelectedRepetition[];
  athlete_ids: number[];
  /** Athletes that the order names but who have not given consent. */
  left_out: number[];
}

/**
 * What an order asks for, less those who have not given consent. Deleted athletes, sessions and repetitions are not exported.
 * @throws FaultError EXPORT_EMPTY
 */
export function select(store: Store, order: ExportOrder): Selection {
  const rows = store
    .prepare(
      `SELECT r.repetition_id, r.analysis_id, r.athlete_id, r.session_id, s.session_date,
              coalesce(c.status, 'unknown') = 'given' AS agreed
       FROM repetitions r
       JOIN sessions s ON s.session_id = r.session_id
       JOIN athletes a ON a.athlete_id = r.athlete_id
       LEFT JOIN research_consents c ON c.athlete_id = r.athlete_id
       WHERE r.analysis_id IS NOT NULL AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL AND a.deleted_utc IS NULL
         AND (@from IS NULL OR s.session_date >= @from) AND (@to IS NULL OR s.session_date <= @to)
         AND (@effort_from IS NULL OR r.effort_percent >= @effort_from)
         AND (@effort_to IS NULL OR r.effort_percent <= @effort_to)
         AND (@athletes IS NULL OR r.athlete_id IN (SELECT value FROM json_each(@athletes)))
         AND (@sessions IS NULL OR r.session_id IN (SELECT value FROM json_each(@sessions)))
         AND (@repetitions IS NULL OR r.repetition_id IN (SELECT value FROM json_each(@repetitions)))
         AND (@groups IS NULL OR r.athlete_id IN
              (SELECT athlete_id FROM group_members WHERE group_id IN (SELECT value FROM json_each(@groups))))
       ORDER BY r.athlete_id, s.session_date, r.session_id, r.set_number, r.order_number, r.repetition_id`,
    )
    .all({
      from: order.from ?? null,
      to: order.to ?? null,
      effort_from: order.effort_from_percent ?? null,
      effort_to: order.effort_to_percent ?? null,
      athletes: listOrNull(order.athlete_ids),
      sessions: listOrNull(order.session_ids),
      repetitions: listOrNull(order.repetition_ids),
      groups: listOrNull(order.group_ids),
    }) as (SelectedRepetition & { agreed: number })[];
  const repetitions = rows.filter((row) => row.agreed === 1).map(({ agreed: _, ...row }) => row);
  const left_out = unique(rows.filter((row) => row.agreed !== 1).map((row) => row.athlete_id));
  if (repetitions.length === 0) throw nothingToExport(rows.length, left_out.length);
  return { repetitions, athlete_ids: unique(repetitions.map((row) => row.athlete_id)), left_out };
}

const unique = (values: number[]): number[] => [...new Set(values)];
const listOrNull = (values: number[] | undefined): string | null => (values ? JSON.stringify(values) : null);

function nothingToExport(found: number, athletes: number): FaultError {
  const where = { repetitions: found, athletes_without_consent: athletes };
  return new FaultError(
    found === 0
      ? fault('EXPORT_EMPTY.selection', {}, where)
      : fault('EXPORT_EMPTY.no_consent', { found, athletes }, where),
  );
}
