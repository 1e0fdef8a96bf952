import type { Store } from '../../../../api/store/store.ts';
import { uniform } from '../../../helpers/random.ts';
import { sprintFiles } from '../../../helpers/sprint-files.ts';
import type { TestApi } from '../../../helpers/test-api.ts';

/** What somebody who knows the club has: bodies, calendar, weather, who ran when, and copies of the files' hashes. */
export interface Knowledge {
  athletes: {
    athlete_id: number;
    sex: string;
    birth_date: string;
    body_mass_kg: number;
    stature_m: number;
    leg_length_m: number;
  }[];
  sessions: { session_id: number; date: string; temperature_c: number; pressure_hpa: number }[];
  runs: {
    repetition_id: number;
    athlete_id: number;
    session_id: number;
    order: number;
    wind_mps: number;
    hash: string;
  }[];
}

/**
 * An invented club whose training is known in every detail. One real analysis is copied to every repetition: only what stands around
 * the measurement matters here.
 */
export async function makeClub(api: TestApi, athletes: number, sessions: number, seed = 5): Promise<Knowledge> {
  const random = uniform(seed);
  const between = (low: number, high: number, digits = 1) => Number((low + (high - low) * random()).toFixed(digits));
  const known: Knowledge = { athletes: [], sessions: [], runs: [] };
  for (let i = 0; i < athletes; i++) {
    const body = {
      sex: i % 2 === 0 ? 'female' : 'male',
      birth_date: `${2003 + Math.floor(8 * random())}-0${1 + Math.floor(9 * random())}-1${Math.floor(9 * random())}`,
      body_mass_kg: between(50, 85),
      stature_m: between(1.6, 1.95, 2),
      leg_length_m: between(0.82, 1, 2),
    };
    const { body: made } = await api.call('POST', '/athletes', { name: `Invented ${i + 1}`, ...body });
    await api.call('PUT', `/athletes/${made.athlete_id}/research-consent`, {
      status: 'given',
      status_date: '2026-01-01',
    });
    known.athletes.push({ athlete_id: made.athlete_id, ...body });
  }
  let day = Date.UTC(2026, 0, 5);
  for (let i = 0; i < sessions; i++) {
    // Twice a week, with a week off now and then: a pattern that finds its place in a calendar.
    day += (random() < 0.12 ? 9 : random() < 0.5 ? 2 : 5) * 86_400_000;
    const date = new Date(day).toISOString().slice(0, 10);
    const air = { temperature_c: between(2, 30), pressure_hpa: between(985, 1030) };
    const { body: made } = await api.call('POST', '/sessions', {
      session_date: date,
      ...air,
      surface: 'grass by the mill',
    });
    known.sessions.push({ session_id: made.session_id, date, ...air });
  }
  const model = await analysedOnce(api, known);
  for (const { session_id } of known.sessions) {
    const there = known.athletes.filter(() => random() < 0.8);
    for (let turn = 0; turn < 2; turn++)
      for (const [place, { athlete_id }] of there.entries()) {
        const order = turn * there.length + place + 1;
        const wind_mps = between(-3, 3, 2);
        const hash = Array.from({ length: 64 }, () => Math.floor(16 * random()).toString(16)).join('');
        const repetition_id = copyOf(api.store, model, { athlete_id, session_id, order, wind_mps, hash });
        known.runs.push({ repetition_id, athlete_id, session_id, order, wind_mps, hash });
      }
  }
  return known;
}

/** The repetition that the others are copies of; its athlete and session are taken away again. */
async function analysedOnce(api: TestApi, known: Knowledge): Promise<number> {
  const { left, right } = sprintFiles();
  const { athlete_id } = (await api.call('POST', '/athletes', { name: 'Model', body_mass_kg: 70, stature_m: 1.8 }))
    .body;
  const { session_id } = known.sessions[0];
  const place = { athlete_id, session_id, mounting: 'foot', effort_percent: 100, course: '30m', time: '5.3s' };
  await api.import(place, { left, right });
  const { repetition_id } = api.store.prepare('SELECT min(repetition_id) AS repetition_id FROM repetitions').get() as {
    repetition_id: number;
  };
  return repetition_id;
}

interface Copy {
  athlete_id: number;
  session_id: number;
  order: number;
  wind_mps: number;
  hash: string;
}

function copyOf(store: Store, model: number, { athlete_id, session_id, order, wind_mps, hash }: Copy): number {
  const mass = (
    store.prepare('SELECT body_mass_kg AS m FROM athletes WHERE athlete_id = ?').get(athlete_id) as { m: number }
  ).m;
  const copy = (table: string, key: string, from: number, change: Record<string, unknown>): number => {
    const columns = (store.prepare(`SELECT name FROM pragma_table_info('${table}')`).all() as { name: string }[])
      .map(({ name }) => name)
      .filter((name) => name !== key && name !== 'uuid');
    const values = columns.map((name) => (name in change ? `@${name}` : name));
    const where = table === 'contacts' ? 'analysis_id' : key;
    return Number(
      store
        .prepare(
          `INSERT INTO ${table} (${columns.join(', ')}) SELECT ${values.join(', ')} FROM ${table} WHERE ${where} = @from`,
        )
        .run({ ...change, from }).lastInsertRowid,
    );
  };
  const { analysis_id: source } = store
    .prepare('SELECT analysis_id FROM repetitions WHERE repetition_id = ?')
    .get(model) as { analysis_id: number };
  const repetition_id = copy('repetitions', 'repetition_id', model, {
    athlete_id,
    session_id,
    order_number: order,
    wind_mps,
  });
  const analysis_id = copy('analyses', 'analysis_id', source, { repetition_id, raw_sha256: JSON.stringify([hash]) });
  copy('contacts', '', source, { analysis_id });
  // The model ran with 70 kg: stiffness by the sine-wave force model is in proportion to the mass.
  store
    .prepare('UPDATE contacts SET vertical_stiffness_kn_per_m = vertical_stiffness_kn_per_m * ? WHERE analysis_id = ?')
    .run(mass / 70, analysis_id);
  store.prepare('UPDATE repetitions SET analysis_id = ? WHERE repetition_id = ?').run(analysis_id, repetition_id);
  return repetition_id;
}
