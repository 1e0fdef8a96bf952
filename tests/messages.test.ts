/** Whether every language says the same: sentences that are missing, values that are left out, sentences that nobody uses. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { FAULT_CODES } from '../shared/fault-codes.ts';
import { type CodedFault, fault } from '../shared/fault.ts';
import { FAULTS_DE } from '../shared/messages/de/faults.ts';

import { CONTACT_FIELDS, REPETITION_FIELDS } from '../shared/fields.ts';
import { QUANTITIES_DE } from '../shared/messages/de/quantities.ts';
import { COACH_DE } from '../shared/messages/de/coach.ts';
import { COACH_EN } from '../shared/messages/en/coach.ts';
import { VIEW_DE } from '../shared/messages/de/view.ts';
import { VIEW_EN } from '../shared/messages/en/view.ts';
import { NOTICES_DE } from '../shared/messages/de/notices.ts';
import { NOTICES_EN } from '../shared/messages/en/notices.ts';
import { notice } from '../shared/notice.ts';
import { REASONS_DE } from '../shared/messages/de/reasons.ts';
import { REASONS_EN } from '../shared/messages/en/reasons.ts';
import { FAULTS_EN } from '../shared/messages/en/faults.ts';
import { acceptedLanguages, chooseLanguage } from '../shared/messages/languages.ts';
import { speechOf } from '../shared/messages/speeches.ts';
import { tellAll } from '../shared/messages/tell-all.ts';
import { because } from '../shared/reason.ts';
import { told, wordsOf } from './helpers/told.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

type Entry = { message: unknown; hint: unknown };
type Room = { [key: string]: unknown };

/** The values a sentence names: `({ file, line }) => ...`. The compiler refuses names that are not used. */
function valuesNamed(sentence: unknown): string[] {
  if (typeof sentence !== 'function') return [];
  const head = /^\(?\s*\{([^}]*)\}/.exec(sentence.toString().replace(/^function\s*\w*/, ''));
  return head
    ? head[1]
        .split(',')
        .map((name) => name.trim())
        .filter(Boolean)
        .sort()
    : [];
}

const isEntry = (value: unknown): value is Entry => typeof value === 'object' && value !== null && 'message' in value;
const namesOf = (value: unknown): string[] =>
  isEntry(value)
    ? [...new Set([...valuesNamed(value.message), ...valuesNamed(value.hint)])].sort()
    : valuesNamed(value);

/** What one language lacks against English, in lines for people. */
function lacking(english: Room, other: Room): string[] {
  return [
    ...Object.keys(english)
      .filter((key) => other[key] === undefined)
      .map((key) => `${key}: no sentence`),
    ...Object.keys(other)
      .filter((key) => english[key] === undefined)
      .map((key) => `${key}: unknown in English`),
    ...Object.keys(english)
      .filter((key) => other[key] !== undefined)
      .flatMap((key) => {
        const found = namesOf(other[key]);
        return namesOf(english[key])
          .filter((name) => !found.includes(name))
          .map((name) => `${key}: leaves out ${name}`);
      }),
    ...Object.keys(english)
      .filter((key) => isEntry(english[key]) && isEntry(other[key]))
      .filter((key) => ((english[key] as Entry).hint === '') !== ((other[key] as Entry).hint === ''))
      .map((key) => `${key}: a hint in one language only`),
  ];
}

const sources = ['shared', 'ingest', 'dsp', 'api', 'web', 'seeds']
  .flatMap((folder) =>
    readdirSync(`${ROOT}/${folder}`, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !entry.parentPath.includes('/dist'))
      .map((entry) => `${entry.parentPath}/${entry.name}`),
  )
  .filter((path) => !path.includes('/shared/messages/'))
  .map((path) => readFileSync(path, 'utf8'))
  .join('\n');

/** Keys that no source names, neither whole nor by their last word behind `CODE.${...}`. */
function unused(keys: string[]): string[] {
  return keys.filter((key) => {
    const [code, why] = key.split('.');
    if (sources.includes(`'${key}'`)) return false;
    return !(why && sources.includes(`\`${code}.\${`) && sources.includes(`'${why}'`));
  });
}

/** Keys put together: t(`eye_${key}`) names all that begin with eye_. */
const patterns = [...sources.matchAll(/`(\w*(?:\$\{[^}`]*\}\w*)+)`/g)]
  .map((match) => match[1])
  .filter((text) => text.includes('_'))
  .map((text) => new RegExp(`^${text.replace(/\$\{[^}]*\}/g, '[\\w ,]+')}$`));
const isUsed = (key: string) => sources.includes(`'${key}'`) || patterns.some((pattern) => pattern.test(key));

describe('sentences', () => {
  test('German has every fault, with every value', () => {
    expect(lacking(FAULTS_EN, FAULTS_DE)).toEqual([]);
  });

  test('German has every reason, with every value, and every reason is given somewhere', () => {
    expect(lacking(REASONS_EN, REASONS_DE)).toEqual([]);
    expect(Object.keys(REASONS_EN).filter((key) => !sources.includes(`because('${key}'`))).toEqual([]);
  });

  test('German has every notice, with every value, and every notice is given somewhere', () => {
    expect(lacking(NOTICES_EN, NOTICES_DE)).toEqual([]);
    expect(Object.keys(NOTICES_EN).filter((key) => !sources.includes(`notice('${key}'`))).toEqual([]);
  });

  test('every fault sentence is used and begins with a known code', () => {
    expect(unused(Object.keys(FAULTS_EN))).toEqual([]);
    expect(Object.keys(FAULTS_EN).filter((key) => !(key.split('.')[0] in FAULT_CODES))).toEqual([]);
  });

  test.each(Object.keys(COACH_EN) as (keyof typeof COACH_EN)[])(
    'German has every phrase for the coach, and uses each: %s',
    (name) => {
      expect(lacking(COACH_EN[name], COACH_DE[name] as Room)).toEqual([]);
      expect(Object.keys(COACH_EN[name]).filter((key) => !isUsed(key))).toEqual([]);
    },
  );

  test.each(Object.keys(VIEW_EN) as (keyof typeof VIEW_EN)[])(
    'German has every phrase of the view, and uses each: %s',
    (name) => {
      const english = VIEW_EN[name] as Room;
      expect(lacking(english, VIEW_DE.phrases[name] as Room)).toEqual([]);
      expect(Object.keys(english).filter((key) => !isUsed(key))).toEqual([]);
    },
  );

  test('German names and defines every quantity, and the view fetches it apart', () => {
    const labels = [...Object.values(CONTACT_FIELDS), ...Object.values(REPETITION_FIELDS)].map(({ label }) => label);
    expect(labels.filter((label) => !QUANTITIES_DE[label]?.every((words) => words !== ''))).toEqual([]);
    const inView = readdirSync(`${ROOT}/web`, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !entry.parentPath.includes('/dist'))
      .map((entry) => readFileSync(`${entry.parentPath}/${entry.name}`, 'utf8'));
    // Neither German nor the server's catalogue is bundled with a page.
    for (const text of inView) expect(text).not.toMatch(/^import (?!type).*messages\/(de\/|en\/faults\.ts|speeches)/m);
  });

  test('what is missing would be found', () => {
    const english = {
      a: 'A.',
      b: { message: ({ file }: { file: string }) => file, hint: ({ line }: { line: number }) => `${line}` },
      c: { message: 'C.', hint: 'Do.' },
    };
    expect(
      lacking(english, {
        b: { message: ({ file }: { file: string }) => file, hint: 'x' },
        c: { message: 'C', hint: '' },
        d: '',
      }),
    ).toEqual(['a: no sentence', 'd: unknown in English', 'b: leaves out line', 'c: a hint in one language only']);
    expect(unused(['NO_SUCH_FAULT.ever'])).toEqual(['NO_SUCH_FAULT.ever']);
  });

  test('dsp and ingest hold no sentences of the catalogue at run time', () => {
    for (const part of ['dsp', 'ingest']) {
      const files = readdirSync(`${ROOT}/${part}`, { recursive: true, withFileTypes: true });
      for (const entry of files.filter((one) => one.isFile() && one.name.endsWith('.ts'))) {
        const text = readFileSync(`${entry.parentPath}/${entry.name}`, 'utf8');
        expect(text, entry.name).not.toMatch(/^import (?!type).*shared\/messages/m);
      }
    }
  });
});

describe('telling', () => {
  const made = fault('CLOCKS_UNCERTAIN.by_one_impact', { u_s: 0.0123 }, { method: 'shared impacts' });

  test('a stored fault is told in either language, numbers in its way', () => {
    const stored = JSON.parse(JSON.stringify(made)) as CodedFault;
    expect(told(stored).message).toContain('standard uncertainty 12.3 ms');
    expect(told(stored, 'de').message).toContain('Standardunsicherheit 12,3 ms');
    expect(told(stored, 'de')).toMatchObject({ code: 'CLOCKS_UNCERTAIN', where: { method: 'shared impacts' } });
  });

  test('plurals follow the language, and a fault within a fault is told too', () => {
    const one = fault('CLOCKS_UNCERTAIN.time_zone', { hours: 1, doubt: null });
    const two = fault('CLOCKS_UNCERTAIN.time_zone', { hours: 2, doubt: made });
    expect(told(one).message).toContain(' 1 hour apart');
    expect(told(two).message).toMatch(/ 2 hours apart.*one impact only/);
    expect(told(one, 'de').message).toContain(' 1 Stunde auseinander');
    expect(told(two, 'de').message).toMatch(/ 2 Stunden auseinander.*einzigen Stoß/);
  });

  test('what an older version stored in words stays as it is', () => {
    const old = { code: 'CLOCKS_UNCERTAIN', message: 'As it was.', where: {}, hint: 'Do.' } as const;
    expect(told(old, 'de')).toBe(old);
  });

  test('a sentence that this version does not know shows meaning and values instead of nothing', () => {
    const { message } = told({ ...made, sentence: 'CLOCKS_UNCERTAIN.of_tomorrow' });
    expect(message).toBe('Two recordings were put on one clock with doubt. {"u_s":0.0123}');
  });

  test('every fault within an answer is told, and what holds none stays the same object', () => {
    const plain = {
      rows: [1, 2],
      times: Float64Array.of(1),
      evidence: { what: 'unit', because: 'its norm at rest' },
      schema: { properties: { because: { type: 'string' } } },
    };
    const answer = { plain, items: [{ fault: made }, { fault: null }] };
    const out = tellAll(answer, speechOf('en'));
    expect(out.plain).toBe(plain);
    expect(out.items[0].fault).toEqual(told(made));
    expect(out.items[1]).toBe(answer.items[1]);
  });

  test('a reason is told in either language, by its key where this version does not know it, and in old words as they were', () => {
    const low = because('rate_too_low', { rate_hz: 25, least_hz: 200 });
    expect(tellAll({ reasons: { contact_time_ms: low } }, speechOf('en')).reasons.contact_time_ms).toBe(
      '25 samples a second cannot give a contact time; at least 200 are needed',
    );
    expect(wordsOf(low, 'de')).toBe(
      '25 Messwerte je Sekunde ergeben keine Bodenkontaktzeit; mindestens 200 sind nötig',
    );
    expect(wordsOf({ because: 'of_tomorrow' })).toBe('of tomorrow');
    expect(wordsOf('no gyroscope', 'de')).toBe('no gyroscope');
  });

  test('a notice is told in either language, with what it holds, and by its key where this version does not know it', () => {
    const lost = notice('link_lost', { name: 'S1', why: notice('no_data_for', { seconds: 8 }) });
    const kept = JSON.parse(JSON.stringify({ messages: [{ text: lost }] })) as { messages: { text: typeof lost }[] };
    expect(tellAll(kept, speechOf('en')).messages[0].text).toMatch(/^S1: no data for 8 s\. Connecting again/);
    expect(tellAll(kept, speechOf('de')).messages[0].text).toMatch(/^S1: seit 8 s keine Daten\. Verbindet sich wieder/);
    const failed = notice('not_stored', { who: null, why: notice('of_fault', { fault: made }) });
    expect(speechOf('de').notice(failed)).toMatch(
      /^Sensoren ohne Athlet: Der Lauf ließ sich nicht speichern \(.*einzigen Stoß/,
    );
    expect(speechOf('de').notice({ notice: 'of_tomorrow' })).toBe('of tomorrow');
    expect(speechOf('de').notice('the browser said so')).toBe('the browser said so');
  });

  test('the language is the first one wanted that there is', () => {
    expect(chooseLanguage(acceptedLanguages('fr, de-AT;q=0.8, en;q=0.9'))).toBe('en');
    expect(chooseLanguage(acceptedLanguages('de-AT,de;q=0.9,en;q=0.8'))).toBe('de');
    expect(chooseLanguage(acceptedLanguages('fr;q=1, de;q=0'))).toBe('en');
    expect(chooseLanguage(['de_DE.UTF-8'])).toBe('de');
    expect(chooseLanguage([])).toBe('en');
    expect(acceptedLanguages(undefined)).toEqual([]);
  });

  test('days and lists are written as the language does', () => {
    expect(speechOf('en').day('2026-11-25')).toBe('November 25, 2026');
    expect(speechOf('de').day('2026-11-25')).toBe('25. November 2026');
    expect(speechOf('en').list(['a', 'b', 2.5])).toBe('a, b, and 2.5');
    expect(speechOf('de').list(['a', 'b', 2.5], 'or')).toBe('a, b oder 2,5');
    expect(speechOf('en').number(36.576)).toBe('36.576');
    expect(speechOf('de').number(12004)).toBe('12004');
  });
});
