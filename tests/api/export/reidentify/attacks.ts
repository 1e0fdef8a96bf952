import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { bodyBands } from '../../../../api/export/privacy/bands.ts';
import { Pseudonyms } from '../../../../api/export/pseudonyms.ts';
import type { Store } from '../../../../api/store/store.ts';
import { ageAt } from '../../../../shared/dates.ts';
import type { Knowledge } from './make-club.ts';

type Row = Record<string, string | undefined>;

export interface AttackResult {
  attack: string;
  aim: 'dates' | 'sessions' | 'people';
  /** How many could be found, and how many were: each by one candidate alone, and the right one. */
  of: number;
  found: number;
}

/** A set as it was handed out, and the truth to judge the attacker by. */
export interface Attacked {
  tables: Record<'athletes' | 'sessions' | 'repetitions' | 'contacts', Row[]>;
  known: Knowledge;
  athleteOf: (pseudonym: string | undefined) => number | undefined;
  sessionOf: (pseudonym: string | undefined) => number | undefined;
}

export function readSet(folder: string, store: Store, known: Knowledge): Attacked {
  const table = (name: string): Row[] => {
    const file = join(folder, `${name}.csv`);
    if (!existsSync(file)) return [];
    return Papa.parse<Row>(readFileSync(file, 'utf8').trim(), { header: true }).data;
  };
  const names = new Pseudonyms(store);
  const athletes = new Map(known.athletes.map(({ athlete_id }) => [names.athlete(athlete_id), athlete_id]));
  const sessions = new Map(
    known.sessions.flatMap(({ session_id }) =>
      known.athletes.map(({ athlete_id }) => [names.session(session_id, athlete_id), session_id] as const),
    ),
  );
  return {
    tables: {
      athletes: table('athletes').filter(({ athlete }) => athletes.has(athlete ?? '')),
      sessions: table('sessions').filter(({ athlete }) => athletes.has(athlete ?? '')),
      repetitions: table('repetitions').filter(({ athlete }) => athletes.has(athlete ?? '')),
      contacts: table('contacts'),
    },
    known,
    athleteOf: (pseudonym) => athletes.get(pseudonym ?? ''),
    sessionOf: (pseudonym) => sessions.get(pseudonym ?? ''),
  };
}

/** Every attack on a set: what a curious person who knows the club would try. */
export function attack(set: Attacked): AttackResult[] {
  return [
    byDate(set),
    byInterval(set),
    byWeather(set),
    byWind(set),
    byHash(set),
    byRunningNumber(set),
    byRunningOrder(set),
    byBody(set),
    byStiffness(set),
    byRowOrder(set),
  ];
}

/** Judges a guess: exactly one candidate, and the right one. */
const right = <T>(candidates: T[], truth: T | undefined) => new Set(candidates).size === 1 && candidates[0] === truth;

function byDate({ tables, known, sessionOf }: Attacked): AttackResult {
  const found = tables.sessions.filter(({ session, session_date }) =>
    right(
      known.sessions.filter(({ date }) => date === session_date).map(({ session_id }) => session_id),
      sessionOf(session),
    ),
  );
  return { attack: 'the date as written', aim: 'dates', of: tables.sessions.length, found: found.length };
}

/** Dates moved by one amount keep their distances: only one place in the calendar has them all. */
function byInterval({ tables, known, athleteOf }: Attacked): AttackResult {
  const days = known.sessions.map(({ date }) => Date.parse(date) / 86_400_000);
  let found = 0;
  for (const { athlete } of tables.athletes) {
    const own = tables.sessions
      .filter((row) => row.athlete === athlete)
      .map((row) => Date.parse(row.session_date!) / 86_400_000);
    const places = days.filter((day) => own.every((at) => days.includes(day + at - own[0])));
    const truth = known.runs.find(({ athlete_id }) => athlete_id === athleteOf(athlete));
    const first = known.sessions.find(({ session_id }) => session_id === truth?.session_id);
    if (first && right(places, Date.parse(first.date) / 86_400_000)) found++;
  }
  return { attack: 'distances between dates', aim: 'dates', of: tables.athletes.length, found };
}

function byWeather({ tables, known, sessionOf }: Attacked): AttackResult {
  const same = (text: string | undefined, value: number) => text !== undefined && text !== '' && Number(text) === value;
  const found = tables.sessions.filter((row) =>
    right(
      known.sessions
        .filter((day) => same(row.temperature_c, day.temperature_c) && same(row.pressure_hpa, day.pressure_hpa))
        .map(({ session_id }) => session_id),
      sessionOf(row.session),
    ),
  );
  return { attack: 'temperature and pressure', aim: 'dates', of: tables.sessions.length, found: found.length };
}

function byWind({ tables, known, sessionOf }: Attacked): AttackResult {
  const rows = tables.sessions.map(({ session }) => tables.repetitions.filter((row) => row.session === session));
  const found = rows.filter((own) => {
    const winds = own.map(({ wind_mps }) => wind_mps).filter((wind) => wind !== undefined && wind !== '');
    if (winds.length === 0) return false;
    const days = known.sessions.filter(({ session_id }) =>
      winds.every((wind) => known.runs.some((run) => run.session_id === session_id && run.wind_mps === Number(wind))),
    );
    return right(
      days.map(({ session_id }) => session_id),
      sessionOf(own[0].session),
    );
  });
  return { attack: 'wind of the repetitions', aim: 'dates', of: tables.sessions.length, found: found.length };
}

function byHash({ tables, known, athleteOf }: Attacked): AttackResult {
  const found = tables.repetitions.filter(({ raw_sha256, athlete }) =>
    right(
      known.runs.filter(({ hash }) => hash === raw_sha256).map(({ athlete_id }) => athlete_id),
      athleteOf(athlete),
    ),
  );
  return { attack: 'hash of a file at hand', aim: 'people', of: tables.repetitions.length, found: found.length };
}

/** Pairs of sessions of two athletes that are one evening, by a rule over their repetitions. */
function pairs(set: Attacked, name: string, alike: (a: Row[], b: Row[]) => boolean): AttackResult {
  const own = set.tables.sessions.map((row) => ({
    row,
    runs: set.tables.repetitions.filter(({ session }) => session === row.session),
  }));
  let of = 0;
  let found = 0;
  for (const [i, a] of own.entries()) {
    const others = own.filter((b, j) => j !== i && b.row.athlete !== a.row.athlete);
    const guessed = others.filter((b) => alike(a.runs, b.runs));
    const true_ones = others.filter((b) => set.sessionOf(b.row.session) === set.sessionOf(a.row.session));
    if (true_ones.length === 0) continue;
    of++;
    // Found where the guess is right more often than not: chance would be right once in as many sessions as there are.
    const hits = guessed.filter((b) => true_ones.includes(b)).length;
    if (guessed.length > 0 && hits > 0.5 * guessed.length) found++;
  }
  return { attack: name, aim: 'sessions', of, found };
}

/** Repetitions are numbered as they come: those of one evening lie among each other. */
function byRunningNumber(set: Attacked): AttackResult {
  const range = (runs: Row[]) => {
    const ids = runs.map(({ repetition_id }) => Number(repetition_id));
    return [Math.min(...ids), Math.max(...ids)];
  };
  return pairs(set, 'running numbers that interleave', (a, b) => {
    const [from, to] = range(a);
    const [other_from, other_to] = range(b);
    return from < other_to && other_from < to;
  });
}

/** On one evening nobody has the other's place in the running order, and both have as many places between their turns. */
function byRunningOrder(set: Attacked): AttackResult {
  const orders = (runs: Row[]) => runs.map(({ order_number }) => Number(order_number)).sort((x, y) => x - y);
  const step = (own: number[]) => (own.length > 1 ? own[1] - own[0] : 0);
  return pairs(set, 'places in the running order', (a, b) => {
    const [x, y] = [orders(a), orders(b)];
    return (
      step(x) > 1 && step(x) === step(y) && !x.some((place) => y.includes(place)) && Math.abs(x[0] - y[0]) < step(x)
    );
  });
}

/** Everybody who could be behind what is said of a body; the attacker knows the rule of the bands. */
function byBody({ tables, known, athleteOf }: Attacked): AttackResult {
  const ages = known.athletes.map(({ athlete_id, birth_date }) => {
    const first = known.runs.find((run) => run.athlete_id === athlete_id);
    const day = known.sessions.find(({ session_id }) => session_id === first?.session_id);
    return day ? ageAt(birth_date, day.date) : null;
  });
  const bands = bodyBands(known.athletes.map((athlete, i) => ({ ...athlete, age_years: ages[i] })));
  const exact = ['body_mass_kg', 'stature_m', 'leg_length_m'] as const;
  const found = tables.athletes.filter((row) =>
    right(
      known.athletes
        .filter((body, i) => {
          if ('age_band' in row)
            return (Object.entries(bands[i]) as [string, string | null][]).every(
              ([key, value]) => (row[key] ?? '') === (value ?? ''),
            );
          return row.sex === body.sex && exact.every((key) => Number(row[key]) === body[key]);
        })
        .map(({ athlete_id }) => athlete_id),
      athleteOf(row.athlete),
    ),
  );
  return { attack: 'sex, age and body', aim: 'people', of: tables.athletes.length, found: found.length };
}

/** Vertical stiffness over what times alone give of it is the body mass (Morin et al. 2005, doi 10.1123/jab.21.2.167). */
function byStiffness({ tables, known, athleteOf }: Attacked): AttackResult {
  const found = tables.athletes.filter(({ athlete }) => {
    const ids = new Set(tables.repetitions.filter((row) => row.athlete === athlete).map((row) => row.repetition_id));
    const masses = tables.contacts
      .filter((row) => ids.has(row.repetition_id) && row.vertical_stiffness_kn_per_m && row.flight_time_ms)
      .map((row) => {
        const [tc, tf] = [Number(row.contact_time_ms) / 1000, Number(row.flight_time_ms) / 1000];
        const force_a_kg = ((9.80665 * Math.PI) / 2) * (tf / tc + 1);
        const lowering_m = (force_a_kg * tc ** 2) / Math.PI ** 2 - (9.80665 * tc ** 2) / 8;
        return (Number(row.vertical_stiffness_kn_per_m) * 1000) / (force_a_kg / lowering_m);
      })
      .sort((a, b) => a - b);
    if (masses.length === 0) return false;
    const mass = masses[masses.length >> 1];
    const nearest = [...known.athletes].sort(
      (a, b) => Math.abs(a.body_mass_kg - mass) - Math.abs(b.body_mass_kg - mass),
    )[0];
    return nearest.athlete_id === athleteOf(athlete);
  });
  return {
    attack: 'body mass worked out from stiffness',
    aim: 'people',
    of: tables.athletes.length,
    found: found.length,
  };
}

/** People are entered in an order that the club knows. */
function byRowOrder({ tables, known, athleteOf }: Attacked): AttackResult {
  const found = tables.athletes.filter(({ athlete }, i) => known.athletes[i]?.athlete_id === athleteOf(athlete));
  return { attack: 'order of the rows', aim: 'people', of: tables.athletes.length, found: found.length };
}
