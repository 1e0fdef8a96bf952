/** What the server says to a coach beside the verdict: desk, plan, tests, strength, comparison, reports, in both languages. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readCoachSettings, writeCoachSettings } from '../../../api/coach/coach-settings.ts';
import type { Store } from '../../../api/store/store.ts';
import { addDays } from '../../../shared/dates.ts';
import { normal } from '../../helpers/random.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const TODAY = '2026-03-27';
let api: TestApi;
let paths: string[];

/** A season in which contacts became shorter, somebody else who returns from an injury, tests, lifts and a plan that breaks limits. */
async function fill(store: Store): Promise<string[]> {
  const z = normal(7);
  const settings = readCoachSettings(store);
  const plan_limits = { ...settings.plan_limits, sprint_test_interval_days: 21, session_max_min: 5 };
  writeCoachSettings(store, { plan_limits, stop_rule: { beyond_in_a_row: 2, speed_loss_percent: 3 } });
  const [wren, ash] = [makeAthlete(store, 'Wren', '2013-05-01'), makeAthlete(store, 'Ash')];
  const post = async (path: string, body: unknown) => {
    const { status, body: made } = await api.call('POST', path, body);
    expect(status, `${path}: ${JSON.stringify(made)}`).toBe(201);
  };
  await post(`/coach/athletes/${wren}/focuses`, { focus: 'contact_time', from_date: '2026-03-01', note: '', cue: '' });
  await api.call('PUT', `/coach/athletes/${ash}/returning`, { returning: { since_date: '2026-03-20', note: '' } });
  const sessions: number[] = [];
  let repetition_id = 0;
  for (let day = 0; day < 10; day++) {
    const date = addDays('2026-02-05', 5 * day);
    const session_id = makeSession(store, date);
    sessions.push(session_id);
    for (let k = 0; k < 4; k++) {
      const contact_time_ms = 126 - 1.5 * Math.max(0, day - 4) + 3 * z();
      const speed_max_mps = 8 - 0.12 * k + 0.05 * z();
      repetition_id = makeRepetition(store, session_id, wren, { contact_time_ms, side_ms: 9, speed_max_mps });
      if (day === 9) makeRepetition(store, session_id, ash, { contact_time_ms: 130 + 3 * z(), speed_max_mps: 7.5 });
    }
  }
  for (const [date, time_s, timing_method] of [
    ['2026-02-01', 5.42, 'beam'],
    ['2026-02-20', 5.21, 'beam'],
    ['2026-03-01', 5.2, 'hand'],
    ['2026-03-02', 5.18, 'hand'],
  ] as const) {
    await post('/coach/sprint-tests', {
      athlete_id: wren,
      date,
      distance_m: 30,
      distance_unit: 'm',
      start_style: 'standing',
      timing_method,
      ...(timing_method === 'hand' ? { watches_s: [time_s] } : { time_s }),
      splits: [{ distance_m: 10, split_time_s: 2.1 }],
      wind_mps: null,
      note: '',
    });
  }
  await post('/coach/strength', {
    athlete_id: wren,
    date: '2026-03-05',
    lift: 'parallel_squat',
    load_kg: 70,
    load_unit: 'kg',
    sets: 3,
    repetitions: 3,
  });
  const last = sessions.at(-1)!;
  const set = {
    kind: 'speed',
    repetitions: 18,
    distance_m: 60,
    distance_unit: 'm',
    start_style: 'standing',
    effort_percent: 100,
    rest_s: 60,
    note: '',
  };
  const planned = makeSession(store, TODAY);
  await api.call('PUT', `/coach/sessions/${planned}/plan`, { template: null, sets: [set], athlete_ids: [wren] });
  return [
    `/coach/athletes?today=${TODAY}`,
    `/coach/athletes/${wren}?today=${TODAY}`,
    `/coach/athletes/${wren}/now?today=${TODAY}`,
    `/coach/athletes/${ash}/now?today=${TODAY}`,
    `/coach/athletes/${wren}/course?today=${TODAY}`,
    `/coach/athletes/${wren}/course?quantity=speed_max_mps&today=${TODAY}`,
    `/coach/athletes/${wren}/focuses/contact_time?today=${TODAY}`,
    `/coach/athletes/${wren}/focuses/evenness?today=${TODAY}`,
    `/coach/athletes/${wren}/sprint-tests?today=${TODAY}`,
    `/coach/athletes/${wren}/strength`,
    `/coach/athletes/${ash}/strength`,
    `/coach/standing?today=${TODAY}`,
    `/coach/sessions/${last}/verdicts`,
    `/coach/sessions/${last}/fatigue`,
    `/coach/sessions/${last}/field`,
    `/coach/sessions/${planned}/plan`,
    '/coach/focuses',
    '/coach/templates',
    `/coach/comparison?kind=sessions&a=${wren}.${sessions[0]}&b=${wren}.${last}`,
    `/coach/comparison?kind=sessions&a=${wren}.${last}&b=${ash}.${last}`,
    `/coach/comparison?kind=repetitions&a=${wren}.${last}.${repetition_id}&b=${wren}.${last}.${repetition_id}`,
    `/coach/comparison?kind=blocks&a=${wren}.2026-02-01.2026-02-20&b=${wren}.2026-03-01.${TODAY}`,
    `/coach/reports/repetition/${repetition_id}`,
    `/coach/reports/session/${last}/${wren}`,
    `/coach/reports/month/${wren}/2026-03?today=${TODAY}`,
  ];
}

beforeAll(async () => {
  api = await openTestApi();
  paths = await fill(api.store);
});
afterAll(() => api?.close());

async function answer(path: string, language: string): Promise<unknown> {
  const reply = await api.app.inject({ url: `/api${path}`, headers: { 'accept-language': language } });
  expect(reply.statusCode, `${path}: ${reply.body.slice(0, 200)}`).toBe(200);
  return reply.json();
}

/** Every text of an answer by its path. Sources are citations, words of the program are for programs, notes are typed by people. */
function textsOf(value: unknown, path = ''): [string, string][] {
  if (typeof value === 'string') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, part]) =>
    /^(source|variation_source|note|code|key|kind|aim|told|verdict|basis|beyond|rule)$/.test(name)
      ? []
      : textsOf(part, `${path}.${name}`),
  );
}

const figuresOf = (text: string): string[] =>
  (text.match(/\d+(?:[.,]\d+)?(?= ?(?:ms|%|m\/s|s\b|m\b|kg|°))/g) ?? []).map((figure) => figure.replace(',', '.'));
/** Words that no German sentence has. */
const ENGLISH = /\b(the|and|of|with|than|is|are|from|by|no|not|to|your|this|each|for|within)\b/i;

test('every sentence comes in German, with the figures of the English one', async () => {
  let changed = 0;
  const left: string[] = [];
  for (const path of paths) {
    const english = textsOf(await answer(path, 'en'));
    const german = new Map(textsOf(await answer(path, 'de')));
    expect([...german.keys()], path).toEqual(english.map(([at]) => at));
    for (const [at, text] of english) {
      const told = german.get(at)!;
      if (told !== text) changed += 1;
      if (ENGLISH.test(told)) left.push(`${path} ${at}: ${told}`);
      // A title of a picture and a label of an axis have no figures to compare; a drawn text is one tick.
      if (!at.includes('.shapes.')) expect(figuresOf(told).sort(), `${told} / ${text}`).toEqual(figuresOf(text).sort());
    }
  }
  expect(left).toEqual([]);
  expect(changed).toBeGreaterThan(150);
});

test('the paper of a month is in German too, decimals included', async () => {
  const month = (await answer(paths.at(-1)!, 'de')) as { title: string; pictures: { shapes: { text?: string }[] }[] };
  expect(month.title).toBe('März 2026');
  const drawn = month.pictures.flatMap(({ shapes }) => shapes.flatMap(({ text }) => text ?? []));
  expect(drawn).toContain('Zeit (s)');
  expect(drawn.filter((text) => /^\d+\.\d+$/.test(text))).toEqual([]);
  expect(drawn.some((text) => /^\d,\d$/.test(text))).toBe(true);
  const pdf = await api.app.inject({
    url: `/api${paths.at(-1)!.replace('?', '/page.pdf?')}`,
    headers: { 'accept-language': 'de' },
  });
  expect(pdf.statusCode).toBe(200);
  expect(pdf.rawPayload.toString('latin1')).toContain('/Lang (de)');
});
