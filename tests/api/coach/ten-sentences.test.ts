/**
 * What a coach is told, recomputed by whoever has the exported tables and a pencil: levels, changes and what is usual, from
 * contacts.csv, repetitions.csv and sessions.csv alone. The rules are written here a second time, from their sources.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { addFocus } from '../../../api/coach/athlete-records.ts';
import { courseView } from '../../../api/coach/judgement/course-view.ts';
import { fieldView } from '../../../api/coach/judgement/field-view.ts';
import { changeConsent } from '../../../api/export/consents.ts';
import { recordExport } from '../../../api/export/export-records.ts';
import { writeExport } from '../../../api/export/formats/write-export.ts';
import { folderSink } from '../../../api/export/sink.ts';
import { Store } from '../../../api/store/store.ts';
import { addDays, dayNumber } from '../../../shared/dates.ts';
import { normal } from '../../helpers/random.ts';
import { makeAthlete, makeRepetition, makeSession } from './make-club.ts';

const FOCUS_FROM = '2026-02-02';
const SESSIONS = 12;
/** What happens to five athletes in the block, ms, and what the last evening adds. */
const STORIES = [
  { name: 'Ash', block: -9, last: 0 },
  { name: 'Birk', block: 7, last: 0 },
  { name: 'Cedar', block: 0, last: -8 },
  { name: 'Dune', block: 0, last: 9 },
  { name: 'Elm', block: -2, last: 0 },
];

interface Repetition {
  athlete: string;
  session: string;
  date: string;
  order: number;
  value: number;
}

describe('the numbers in ten sentences', () => {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-ten-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const told: { athlete: string; verdict: string; block: string }[] = [];
  let repetitions: Repetition[] = [];

  beforeAll(async () => {
    const store = Store.open(':memory:');
    const z = normal(20);
    let [date, session_id] = ['', 0];
    const athletes = STORIES.map((story) => ({ ...story, athlete_id: makeAthlete(store, story.name) }));
    for (const { athlete_id } of athletes) {
      addFocus(store, athlete_id, { focus: 'contact_time', from_date: FOCUS_FROM });
      changeConsent(store, athlete_id, { status: 'given', status_date: '2026-01-01' });
    }
    for (let s = 0; s < SESSIONS; s++) {
      date = addDays('2026-01-12', 4 * s);
      session_id = makeSession(store, date);
      for (const { athlete_id, block, last } of athletes) {
        const level = 118 + z() + (date >= FOCUS_FROM ? block : 0) + (s === SESSIONS - 1 ? last : 0);
        for (let k = 0; k < 3; k++) {
          makeRepetition(store, session_id, athlete_id, { contact_time_ms: level + 1.5 * z(), side_ms: 2 * z() });
        }
      }
    }
    const evening = fieldView(store, session_id);
    for (const { athlete_id, name } of athletes) {
      const verdict = evening.athletes.find((athlete) => athlete.athlete_id === athlete_id)!.judgements[0].sentence;
      told.push({ athlete: name, verdict, block: courseView(store, athlete_id, {}, date).course!.sentence });
    }
    const made = recordExport(store, { kind: 'tables', with_names: true });
    await writeExport(store, made, folderSink(folder));
    repetitions = readRepetitions(folder);
  });

  test.each(STORIES)('of $name, on the last repetition and on the block', ({ name }) => {
    const own = repetitions.filter((repetition) => repetition.athlete === name);
    expect(own).toHaveLength(3 * SESSIONS);
    const { verdict, block } = told.find(({ athlete }) => athlete === name)!;
    const last = own.at(-1)!;
    const before = own.filter(({ date }) => date < last.date);
    const today = own.filter(({ date }) => date === last.date);
    const usual = huberCentre(
      before.map(({ value }) => value),
      // A repetition of 28 days ago counts half of today's.
      before.map(({ date }) => 0.5 ** ((dayNumber(last.date) - dayNumber(date)) / 28)),
    );
    const alone = last.value - usual;
    const together = mean(today.map(({ value }) => value)) - usual;
    expect(numbers(verdict)).toEqual(verdictNumbers(verdict, { value: last.value, alone, together }));

    const sessions = [...new Set(own.map(({ session }) => session))].map((session) => {
      const of = own.filter((repetition) => repetition.session === session);
      return { date: of[0].date, level: mean(of.map(({ value }) => value)) };
    });
    // Before: at most six sessions of the sixty days before the block. Now: the last four, within 21 days.
    const earlier = sessions
      .filter(({ date }) => date < FOCUS_FROM && dayNumber(FOCUS_FROM) - dayNumber(date) <= 60)
      .slice(-6);
    const now = sessions
      .filter(({ date }) => date >= FOCUS_FROM && dayNumber(last.date) - dayNumber(date) <= 21)
      .slice(-4);
    const [from, to] = [earlier, now].map((levels) => mean(levels.map(({ level }) => level)));
    expect(numbers(block)).toEqual(blockNumbers(block, from, to));
  });

  test('are of every kind: better, worse, as usual, no change', () => {
    expect(told.map(({ block }) => block.split(':')[0]).slice(0, 2)).toEqual(['Better', 'Worse']);
    expect(told.filter(({ block }) => block.includes('no change beyond chance')).length).toBeGreaterThanOrEqual(2);
    expect(told.some(({ verdict }) => /^Better|^Worse/.test(verdict))).toBe(true);
    expect(told.some(({ verdict }) => /as usual|may be chance|likely/.test(verdict))).toBe(true);
  });
});

/** Means at speed by repetition, from the exported tables. */
function readRepetitions(folder: string): Repetition[] {
  const table = (name: string) =>
    Papa.parse<Record<string, string>>(readFileSync(join(folder, `${name}.csv`), 'utf8'), {
      header: true,
      skipEmptyLines: true,
    }).data;
  const dates = new Map(table('sessions').map((row) => [row.session, row.session_date]));
  const contacts = table('contacts').filter((row) => row.phase === 'maximum speed' && row.contact_time_ms !== '');
  return table('repetitions')
    .map((row) => ({
      athlete: row.athlete,
      session: row.session,
      date: dates.get(row.session)!,
      order: Number(row.order_number),
      value: mean(
        contacts
          .filter(({ repetition_id }) => repetition_id === row.repetition_id)
          .map(({ contact_time_ms }) => Number(contact_time_ms)),
      ),
    }))
    .sort((a, b) => a.date.localeCompare(b.date) || a.order - b.order);
}

/** Whole numbers of milliseconds that a sentence tells, outside its interval. */
function numbers(sentence: string): number[] {
  return [...sentence.replace(/\([^)]*\)/g, '').matchAll(/(\d+)(?: to (\d+))? ms/g)].flatMap(([, first, second]) =>
    second === undefined ? [Number(first)] : [Number(first), Number(second)],
  );
}

function verdictNumbers(sentence: string, found: { value: number; alone: number; together: number }): number[] {
  const value = Math.round(found.value);
  if (/as usual/.test(sentence)) return [value];
  const change = / today \d/.test(sentence) ? found.together : found.alone;
  expect(sentence).toContain(change < 0 ? 'shorter' : 'longer');
  return [value, Math.round(Math.abs(change))];
}

function blockNumbers(sentence: string, from: number, to: number): number[] {
  if (/: no change beyond chance/.test(sentence)) return [Math.round(to)];
  if (/likely/.test(sentence)) return [Math.round(to), Math.round(Math.abs(to - from))];
  expect(sentence).toContain(to < from ? 'shorter' : 'longer');
  return [Math.round(from), Math.round(to), Math.round(Math.abs(to - from))];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * Huber's centre (Huber 1964: 1.345 scales) by bisection of its estimating equation; the scale is Qn, the quarter of all
 * distances between pairs (Rousseeuw and Croux 1993: 2.2219, and n / (n + 1.4) for odd, n / (n + 3.8) for even n).
 */
function huberCentre(values: readonly number[], shares: readonly number[]): number {
  const n = values.length;
  const distances = values.flatMap((a, i) => values.slice(i + 1).map((b) => Math.abs(a - b))).sort((a, b) => a - b);
  const h = Math.floor(n / 2) + 1;
  const scale = 2.2219 * (n % 2 === 1 ? n / (n + 1.4) : n / (n + 3.8)) * distances[(h * (h - 1)) / 2 - 1];
  const pull = (centre: number) =>
    values.reduce((sum, value, i) => {
      const r = (value - centre) / scale;
      return sum + shares[i] * Math.max(-1.345, Math.min(1.345, r));
    }, 0);
  let [low, high] = [Math.min(...values), Math.max(...values)];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (pull(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
