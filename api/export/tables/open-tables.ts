import type { Batch, Cell, ExportColumn, ExportTable } from './column.ts';
import { tableOf } from './column.ts';
import { type Body, bodyBands } from '../privacy/bands.ts';
import { fictiveDates } from '../privacy/fictive-dates.ts';

type Row = Record<string, Cell>;

/** Columns that tell a place, a day, a body or a file. */
const OUT_OF_SESSIONS = ['age_years', 'surface', 'temperature_c', 'pressure_hpa', 'title', 'notes'];
const OUT_OF_REPETITIONS = ['wind_mps', 'surface', 'footwear', 'raw_sha256', 'notes'];
/** A body mass follows from each of these and the times beside it. */
const TELLS_MASS = /stiffness|_f0_n$|_f0_n_u$|power_max_w$|power_max_w_u$/;

/**
 * The tables of an export at the open level: see `levelStatement` for what is done.
 * @param tables athletes, sessions, repetitions and contacts under pseudonyms, of an `openSelection`
 * @param shiftOf amount of an athlete's own, 1 to 365, by pseudonym
 */
export function openTables(tables: ExportTable[], shiftOf: (athlete: string) => number): ExportTable[] {
  const [athletes, sessions, repetitions, contacts] = ['athletes', 'sessions', 'repetitions', 'contacts'].map(
    (name) => tables.find((table) => table.name === name)!,
  );
  const people = rowsOf(athletes).sort(by('athlete'));
  const visits = rowsOf(sessions).sort(by('athlete', 'session_date'));
  const runs = rowsOf(repetitions);
  const visitOrder = new Map(visits.map(({ session }, i) => [session, i]));
  runs.sort(
    (a, b) =>
      visitOrder.get(a.session)! - visitOrder.get(b.session)! ||
      by('set_number', 'order_number', 'repetition_id')(a, b),
  );
  const numbers = new Map(runs.map((row, i) => [row.repetition_id, i + 1]));
  return [
    openAthletes(athletes, people, visits),
    openSessions(sessions, visits, shiftOf),
    openRepetitions(repetitions, runs, numbers),
    openContacts(contacts, numbers),
  ];
}

function openAthletes(table: ExportTable, people: Row[], visits: Row[]): ExportTable {
  const first = new Map<Cell, Row>();
  for (const visit of visits) if (!first.has(visit.athlete)) first.set(visit.athlete, visit);
  const bands = bodyBands(
    people.map((row) => ({ ...row, age_years: first.get(row.athlete)?.age_years ?? null }) as unknown as Body),
  );
  const bandColumn = (name: string, what: string): ExportColumn => ({
    name,
    type: 'string',
    unit: '',
    definition: `${what}; empty where too few athletes of the set share it with what stands before.`,
    source: 'own definition',
  });
  const columns = [
    table.columns.find(({ name }) => name === 'athlete')!,
    bandColumn('sex', 'As given by the athlete'),
    bandColumn('age_band', 'Completed years at the first session, in a band'),
    bandColumn('body_mass_band', 'Last known body mass, in a band'),
    bandColumn('stature_band', 'Last known stature, in a band'),
  ];
  return tableOf(
    { ...table, columns },
    people.map(({ athlete }, i) => ({ athlete, ...bands[i] })),
  );
}

function openSessions(table: ExportTable, visits: Row[], shiftOf: (athlete: string) => number): ExportTable {
  const columns = table.columns
    .filter(({ name }) => !OUT_OF_SESSIONS.includes(name))
    .map((column) =>
      column.name === 'session_date'
        ? {
            ...column,
            definition: 'Not the true day: before 1926, in the order of the sessions; blocks of four weeks are kept.',
          }
        : column,
    );
  const rows = [...new Set(visits.map(({ athlete }) => athlete))].flatMap((athlete) => {
    const own = visits.filter((visit) => visit.athlete === athlete);
    const dates = fictiveDates(
      own.map(({ session_date }) => session_date as string | null),
      shiftOf(String(athlete)),
    );
    return own.map((visit, i) => ({ ...visit, session_date: dates[i] }));
  });
  return tableOf({ ...table, columns }, rows);
}

/** Running orders tell who ran in turns with whom: they are counted anew within each session of an athlete. */
function openRepetitions(table: ExportTable, runs: Row[], numbers: Map<Cell, number>): ExportTable {
  const columns = table.columns.filter(({ name }) => !OUT_OF_REPETITIONS.includes(name) && !TELLS_MASS.test(name));
  const seen = new Map<Cell, { sets: Cell[]; orders: number }>();
  const rows = runs.map((row) => {
    const own = seen.get(row.session) ?? { sets: [], orders: 0 };
    seen.set(row.session, own);
    if (!own.sets.includes(row.set_number)) own.sets.push(row.set_number);
    own.orders++;
    return {
      ...row,
      repetition_id: numbers.get(row.repetition_id)!,
      set_number: own.sets.indexOf(row.set_number) + 1,
      order_number: own.orders,
      sampling_rate_hz: typeof row.sampling_rate_hz === 'number' ? Math.round(row.sampling_rate_hz) : null,
    };
  });
  return tableOf({ ...table, columns }, rows);
}

function openContacts(table: ExportTable, numbers: Map<Cell, number>): ExportTable {
  const columns = table.columns.filter(({ name }) => !TELLS_MASS.test(name));
  return {
    ...table,
    columns,
    *batches(): Generator<Batch> {
      for (const { rows, values } of table.batches()) {
        const kept = new Map(columns.map(({ name }) => [name, values.get(name)!]));
        kept.set(
          'repetition_id',
          values.get('repetition_id')!.map((id) => numbers.get(id)!),
        );
        yield { rows, values: kept };
      }
    },
  };
}

function rowsOf(table: ExportTable): Row[] {
  const rows: Row[] = [];
  for (const { rows: count, values } of table.batches())
    for (let i = 0; i < count; i++) rows.push(Object.fromEntries([...values].map(([name, cells]) => [name, cells[i]])));
  return rows;
}

function by(...names: string[]): (a: Row, b: Row) => number {
  return (a, b) => {
    for (const name of names) {
      const [x, y] = [a[name], b[name]];
      if (x === y) continue;
      if (typeof x === 'number' && typeof y === 'number') return x - y;
      return String(x) < String(y) ? -1 : 1;
    }
    return 0;
  };
}
