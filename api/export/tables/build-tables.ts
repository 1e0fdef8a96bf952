import { columnNames } from '../../store/column-names.ts';
import type { Store } from '../../store/store.ts';
import { FIGURE_COLUMNS } from '../../../shared/schemas/figures.ts';
import type { ExportOrder } from '../../../shared/schemas/export.ts';
import { freeMemoryOfBatches } from '../../free-memory.ts';
import { exportedAge } from '../exported-age.ts';
import { addDays, isStandIn } from '../../../shared/dates.ts';
import { CURVE_COLUMNS, PRIOR_COLUMNS } from '../../measuring/curve-columns.ts';
import { Pseudonyms } from '../pseudonyms.ts';
import type { Selection, SelectedRepetition } from '../selection.ts';
import { type Cell, cellsInBatches, type ExportTable, inBatches, tableOf } from './column.ts';
import { contactColumns } from './contact-columns.ts';
import { ATHLETE_COLUMNS, REPETITION_COLUMNS, SESSION_COLUMNS } from './other-columns.ts';
import { uuidColumns } from './uuid-columns.ts';

type Row = Record<string, Cell>;

/** What the repetitions table takes of an analysis; its large columns (summary, quality, settings) stay where they are. */
const ANALYSIS_COLUMNS = [...FIGURE_COLUMNS, 'version', 'method', 'settings_sha256', 'raw_sha256']
  .map((name) => `a.${name}`)
  .join(', ');

/** The four tables of a tidy export: athletes, sessions, repetitions, contacts. Names become pseudonyms unless asked for. */
export function buildTables(store: Store, selection: Selection, order: ExportOrder): ExportTable[] {
  const names = new Pseudonyms(store);
  const athleteName = (row: Row): string =>
    order.with_names ? String(row.name) : names.athlete(row.athlete_id as number);
  const athletes = new Map(
    rowsIn(
      store,
      'SELECT * FROM athletes WHERE athlete_id IN (SELECT value FROM json_each(?))',
      selection.athlete_ids,
    ).map((row) => [row.athlete_id as number, row]),
  );
  const sessionName = ({ session_id, athlete_id }: SelectedRepetition): string =>
    order.with_names ? String(session_id) : names.session(session_id, athlete_id);
  return [
    athletesTable(athletes, order, athleteName),
    sessionsTable(store, selection, order, athletes, athleteName, sessionName, names),
    repetitionsTable(store, selection, order, athletes, athleteName, sessionName),
    contactsTable(store, selection, order),
  ];
}

function athletesTable(athletes: Map<number, Row>, order: ExportOrder, athleteName: (row: Row) => string): ExportTable {
  const rows = [...athletes.values()].map((row) => ({ ...row, athlete_uuid: row.uuid, athlete: athleteName(row) }));
  return tableOf(
    {
      name: 'athletes',
      title: 'One row an athlete',
      columns: [...ATHLETE_COLUMNS, ...uuidColumns('athlete', order)],
      primary_key: ['athlete'],
      foreign_keys: [],
    },
    rows,
  );
}

function sessionsTable(
  store: Store,
  selection: Selection,
  order: ExportOrder,
  athletes: Map<number, Row>,
  athleteName: (row: Row) => string,
  sessionName: (row: SelectedRepetition) => string,
  names: Pseudonyms,
): ExportTable {
  const read = store.prepare('SELECT * FROM sessions WHERE session_id = ?');
  const visits = firstOfVisits(selection);
  function* rows(): Generator<Row> {
    for (const repetition of visits) {
      const session = sessionName(repetition);
      const row = read.get(repetition.session_id) as Row;
      const athlete = athletes.get(repetition.athlete_id)!;
      const days = order.shift_dates ? names.dayShift(repetition.athlete_id) : 0;
      yield {
        ...row,
        session_uuid: row.uuid,
        session: order.with_names ? `${session}-${repetition.athlete_id}` : session,
        athlete: athleteName(athlete),
        session_date: isStandIn(repetition.session_date) ? null : addDays(repetition.session_date, -days),
        age_years: exportedAge(athlete.birth_date as string | null, repetition.session_date),
      };
    }
  }
  const columns = [
    ...SESSION_COLUMNS.filter((c) => order.with_free_text || !['title', 'notes'].includes(c.name)),
    ...uuidColumns('session', order),
  ];
  return {
    name: 'sessions',
    title: 'One row a session of one athlete',
    columns,
    primary_key: ['session'],
    foreign_keys: [{ fields: ['athlete'], table: 'athletes', reference: ['athlete'] }],
    rows: visits.length,
    batches: () => inBatches(columns, rows()),
  };
}

/** The first repetition of every athlete in every session, in the order of the selection. */
function firstOfVisits({ repetitions }: Selection): SelectedRepetition[] {
  const seen = new Map<number, Set<number>>();
  return repetitions.filter(({ session_id, athlete_id }) => {
    const sessions = seen.get(athlete_id) ?? new Set();
    if (sessions.has(session_id)) return false;
    seen.set(athlete_id, sessions.add(session_id));
    return true;
  });
}

function repetitionsTable(
  store: Store,
  selection: Selection,
  order: ExportOrder,
  athletes: Map<number, Row>,
  athleteName: (row: Row) => string,
  sessionName: (row: SelectedRepetition) => string,
): ExportTable {
  const read = store.prepare(
    `SELECT r.*, ${ANALYSIS_COLUMNS}, json_extract(a.result, '$.travel') AS travel,
       json_extract(a.summary, '$.contacts_missing') AS contacts_missing,
       json_extract(a.result, '$.first_movement_s') AS first_movement_s,
       json_extract(a.result, '$.first_movement_s_u') AS first_movement_s_u,
       json_extract(a.result, '$.speed_curve') AS speed_curve, json_extract(a.result, '$.kinetics') AS kinetics,
       (SELECT min(mounting) FROM recordings JOIN repetition_recordings USING (recording_id) WHERE repetition_id = r.repetition_id) AS mounting,
       (SELECT min(sampling_rate_hz) FROM recordings JOIN repetition_recordings USING (recording_id) WHERE repetition_id = r.repetition_id) AS sampling_rate_hz
     FROM repetitions r JOIN analyses a ON a.analysis_id = r.analysis_id WHERE r.repetition_id = ?`,
  );
  // Read again for each format rather than kept: the fitted curves of a programme's years would fill the memory.
  function* rows(): Generator<Row> {
    for (const repetition of selection.repetitions) {
      const row = read.get(repetition.repetition_id) as Row;
      const session = sessionName(repetition);
      yield {
        ...row,
        repetition_uuid: row.uuid,
        ...curveOf(row),
        splits: splitsText(row.splits),
        session: order.with_names ? `${session}-${repetition.athlete_id}` : session,
        athlete: athleteName(athletes.get(repetition.athlete_id)!),
        raw_sha256: (JSON.parse(row.raw_sha256 as string) as (string | null)[]).filter(Boolean).join(' ') || null,
      };
      // A fitted curve leaves far more than its cells hold.
      freeMemoryOfBatches();
    }
  }
  const columns = [
    ...REPETITION_COLUMNS.filter((c) => order.with_free_text || c.name !== 'notes'),
    ...uuidColumns('repetition', order),
  ];
  return {
    name: 'repetitions',
    title: 'One row a repetition',
    columns,
    primary_key: ['repetition_id'],
    foreign_keys: [
      { fields: ['session'], table: 'sessions', reference: ['session'] },
      { fields: ['athlete'], table: 'athletes', reference: ['athlete'] },
    ],
    rows: selection.repetitions.length,
    batches: () => inBatches(columns, rows()),
  };
}

/** Splits as on the command line: `10m=2.103s 20m=3.4s`; empty where none was timed. */
function splitsText(stored: Cell | undefined): string | null {
  const splits = JSON.parse(String(stored ?? '[]')) as { distance_m: number; split_time_s: number }[];
  return splits.map(({ distance_m, split_time_s }) => `${distance_m}m=${split_time_s}s`).join(' ') || null;
}

/** The fitted curve of a repetition as cells. */
function curveOf(row: Row): Row {
  const part = (name: string) => (typeof row[name] === 'string' ? JSON.parse(row[name]) : null);
  const fitted = { speed_curve: part('speed_curve'), kinetics: part('kinetics') };
  return {
    ...Object.fromEntries([...CURVE_COLUMNS, ...PRIOR_COLUMNS].map(({ name, value }) => [name, value(fitted)])),
    curve_from: fitted.speed_curve?.from ?? null,
  };
}

function contactsTable(store: Store, selection: Selection, order: ExportOrder): ExportTable {
  const columns = contactColumns(order.quantities);
  const stored = columnNames(store, 'contacts');
  const cells = columns
    .slice(1)
    .map(({ name }) => (stored.includes(name) ? name : `json_extract(other_fields, '$.${name}')`));
  const read = store.database
    .prepare(`SELECT ?, ${cells.join(', ')} FROM contacts WHERE analysis_id = ? ORDER BY step`)
    .raw();
  function* rows(): Generator<Cell[]> {
    for (const { repetition_id, analysis_id } of selection.repetitions)
      yield* read.all(repetition_id, analysis_id) as Cell[][];
  }
  const { total } = store
    .prepare('SELECT sum(contacts) AS total FROM analyses WHERE analysis_id IN (SELECT value FROM json_each(?))')
    .get(JSON.stringify(selection.repetitions.map((r) => r.analysis_id))) as { total: number };
  return {
    name: 'contacts',
    title: 'One row a ground contact',
    columns,
    primary_key: ['repetition_id', 'step'],
    foreign_keys: [{ fields: ['repetition_id'], table: 'repetitions', reference: ['repetition_id'] }],
    rows: total,
    batches: () => cellsInBatches(columns, rows()),
  };
}

function rowsIn(store: Store, sql: string, ids: number[]): Row[] {
  return store.prepare(sql).all(JSON.stringify(ids)) as Row[];
}
