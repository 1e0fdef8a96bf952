import type { DeviceRole } from '../../shared/schemas/access.ts';
import type { Caller } from './caller.ts';

export interface NarrowTo {
  role: DeviceRole;
  operation: string;
  /** Calendar day at the server, `2026-11-25`. */
  today: string;
  /** Athletes of the day's sessions. */
  people: () => Set<number>;
}

/** Written for the coach: what it says of somebody is not for every screen. */
const FREE_TEXT = new Set(['note', 'notes']);
/** What a field device writes itself and sees again. */
const OWN_OF_FIELD = /\/ratings/;

/** Sees the day's sessions alone. */
export function seesOneDay({ here, role }: Pick<Caller, 'here' | 'role'>): boolean {
  return !here && (role === 'field' || role === 'display');
}

/**
 * What a device of a narrow role gets to see of an answer, or of an event of a stream. Field and display: sessions of the day, names of
 * those who run in them, no notes (but those of ratings, which the field writes itself). A display: first names, and neither
 * notes nor what was wrong with whose file. The coach and the scientist see answers as they are: what the latter may ask for
 * holds no names in the first place.
 * @param answer body of an answer; it is not changed
 */
export function narrowAnswer(answer: unknown, to: NarrowTo): unknown {
  if (to.role === 'coach' || to.role === 'scientist') return answer;
  const days = to.operation === 'GET /api/sessions' ? onlyOf(answer, to.today) : answer;
  const quiet = withoutNotes(days, to);
  return to.role === 'display' ? withFirstNames(quiet) : quiet;
}

function onlyOf(answer: unknown, today: string): unknown {
  const { items } = answer as { items: { session_date: string }[] };
  return { ...(answer as object), items: items.filter((session) => session.session_date === today) };
}

function withoutNotes(answer: unknown, to: NarrowTo): unknown {
  const keepsOwn = to.role === 'field' && (OWN_OF_FIELD.test(to.operation) || to.operation.endsWith('/field'));
  const walk = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(walk);
    if (value === null || typeof value !== 'object') return value;
    const kept = Object.entries(withoutOthers(value as Record<string, unknown>, to)).map(([key, inner]) => {
      if (FREE_TEXT.has(key) && !(key === 'note' && keepsOwn)) return [key, typeof inner === 'string' ? '' : null];
      if (key === 'fault' && to.role === 'display') return [key, null];
      return [key, walk(inner)];
    });
    return Object.fromEntries(kept);
  };
  return walk(answer);
}

/** A sensor, or contacts, of somebody who does not run today: whose they are is not told. */
function withoutOthers(value: Record<string, unknown>, { people }: NarrowTo): Record<string, unknown> {
  const { athlete_id, athlete_name } = value;
  if (athlete_name === undefined || typeof athlete_id !== 'number' || people().has(athlete_id)) return value;
  return { ...value, athlete_id: null, athlete_name: null };
}

/** Every athlete's name becomes its first word, wherever it stands. */
function withFirstNames(answer: unknown): unknown {
  const names = namesIn(answer);
  // As a function: a name may hold what a replacement text would take for a sign of its own.
  const shorten = (text: string) => names.reduce((out, name) => out.replaceAll(name, () => firstName(name)), text);
  const walk = (value: unknown): unknown => {
    if (typeof value === 'string') return shorten(value);
    if (Array.isArray(value)) return value.map(walk);
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, walk(inner)]));
  };
  return walk(answer);
}

/** Names of the athletes of an answer, longest first, so that none is cut within another. */
function namesIn(answer: unknown): string[] {
  const athletes = (answer as { athletes?: { name?: string }[] } | null)?.athletes ?? [];
  return athletes.flatMap(({ name }) => (name ? [name] : [])).sort((a, b) => b.length - a.length);
}

function firstName(name: string): string {
  return name.trim().split(/\s+/)[0];
}
