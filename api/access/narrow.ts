import type { Caller } from './caller.ts';

/**
 * What a device of a narrow role gets to see of an answer: sessions of the day only; a display first names only and no rating's note.
 * @param answer body of an answer; it is not changed
 * @param today calendar day at the server, `2026-11-25`
 */
export function narrowAnswer(answer: unknown, caller: Caller, operation: string, today: string): unknown {
  if (caller.role === null || caller.role === 'coach') return answer;
  const days = operation === 'GET /api/sessions' ? onlyOf(answer, today) : answer;
  return caller.role === 'display' ? withFirstNames(days) : days;
}

function onlyOf(answer: unknown, today: string): unknown {
  const { items } = answer as { items: { session_date: string }[] };
  return { ...(answer as object), items: items.filter((session) => session.session_date === today) };
}

/** Every athlete's name becomes its first word, wherever it stands. */
function withFirstNames(answer: unknown): unknown {
  const names = namesIn(answer);
  const shorten = (text: string) => names.reduce((out, name) => out.replaceAll(name, firstName(name)), text);
  const walk = (value: unknown): unknown => {
    if (typeof value === 'string') return shorten(value);
    if (Array.isArray(value)) return value.map(walk);
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, key === 'note' ? '' : walk(inner)]));
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
