import { phrasesOf } from '../../../app/language.ts';
import { filmWords } from '../../../../shared/messages/en/view/film.ts';
import type { Contact } from '../../../../shared/analysis.ts';
import type { FilmTie } from '../../../../shared/schemas/coach/film.ts';

const t = phrasesOf('film', filmWords);

/** Instants of a contact that a film is shown at. */
export const INSTANTS = ['touchdown', 'middle', 'toe_off'] as const;
export type Instant = (typeof INSTANTS)[number];

/** An instant in words. */
export const instantWords = (instant: Instant): string => t(instant);

/** The recording's time of an instant, s; null where toe-off was not measured. */
export function instantOf({ touchdown_s, toe_off_s }: Contact, instant: Instant): number | null {
  if (instant === 'touchdown') return touchdown_s;
  if (toe_off_s === null) return null;
  return instant === 'toe_off' ? toe_off_s : (touchdown_s + toe_off_s) / 2;
}

/** The tie of this film among those of a repetition. A film is known by name and size. */
export function tieOf(ties: readonly FilmTie[], file: File | null): FilmTie | null {
  return (file && ties.find((tie) => tie.file_name === file.name && tie.file_bytes === file.size)) ?? null;
}

/** Standard uncertainty of the touchdowns of a repetition, s. */
export function instantError(contacts: readonly Contact[]): number {
  const errors = contacts.flatMap(({ touchdown_s_u }) => touchdown_s_u ?? []);
  return errors.length === 0 ? 0 : Math.sqrt(errors.reduce((sum, u) => sum + u ** 2, 0) / errors.length);
}
