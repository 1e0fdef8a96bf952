import type { ComparisonQuestion } from '../../../../shared/schemas/coach/comparison.ts';

export type ComparedKind = ComparisonQuestion['kind'];

/** The parts of a side's key as they are chosen one after the other; what is not chosen yet is empty. */
export interface KeyParts {
  athlete_id: string;
  session_id: string;
  repetition_id: string;
  from: string;
  to: string;
}

const NOTHING: KeyParts = { athlete_id: '', session_id: '', repetition_id: '', from: '', to: '' };

/** Reads a side of the address, `3.12.40` or `3.2026-11-01.2026-11-21`, however much of it is there. */
export function readKey(kind: ComparedKind, key: string): KeyParts {
  const [athlete_id = '', second = '', third = ''] = key.split('.');
  return kind === 'blocks'
    ? { ...NOTHING, athlete_id, from: second, to: third }
    : { ...NOTHING, athlete_id, session_id: second, repetition_id: kind === 'repetitions' ? third : '' };
}

/** The other way round: as much of a side as is chosen. */
export function writeKey(kind: ComparedKind, parts: KeyParts): string {
  const chosen =
    kind === 'blocks'
      ? [parts.athlete_id, parts.from, parts.to]
      : [parts.athlete_id, parts.session_id, ...(kind === 'repetitions' ? [parts.repetition_id] : [])];
  const key = chosen.join('.');
  let end = key.length;
  while (key[end - 1] === '.') end -= 1;
  return key.slice(0, end);
}

/** Whether everything of a side is chosen. */
export function isWhole(kind: ComparedKind, key: string): boolean {
  const { athlete_id, session_id, repetition_id, from, to } = readKey(kind, key);
  if (athlete_id === '') return false;
  if (kind === 'blocks') return from !== '' && to !== '';
  return session_id !== '' && (kind === 'sessions' || repetition_id !== '');
}
