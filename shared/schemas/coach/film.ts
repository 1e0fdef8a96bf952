import { type Static, Type } from 'typebox';
import { Id, UtcInstant, wordOf } from '../common.ts';

/** What a frame can be marked as. */
export const FILM_EVENTS = ['touchdown', 'toe_off'] as const;

/** One instant of a contact on its frame. */
export const FilmMark = Type.Object(
  {
    step: Type.Integer({ minimum: 1, maximum: 100_000 }),
    event: wordOf(FILM_EVENTS),
    /** The frame's own time in the film, s. */
    film_s: Type.Number({ minimum: 0, maximum: 360_000 }),
    /** The instant in the recording that it was marked against, s from its first sample. */
    recording_s: Type.Number({ minimum: -1e9, maximum: 1e9 }),
  },
  { additionalProperties: false },
);
export type FilmMark = Static<typeof FilmMark>;

const fields = {
  /** The file as it is called on the device that opened it; the film itself stays there. */
  file_name: Type.String({ minLength: 1, maxLength: 300 }),
  file_bytes: Type.Integer({ minimum: 1, maximum: Number.MAX_SAFE_INTEGER }),
  /** Time from one frame to the next, s, as measured on the film. */
  frame_s: Type.Number({ exclusiveMinimum: 0, maximum: 1 }),
  marks: Type.Array(FilmMark, { maxItems: 200 }),
};
export const FilmTieBody = Type.Object(fields, { additionalProperties: false });
export type FilmTieBody = Static<typeof FilmTieBody>;

/** How a film was tied to a repetition. */
export const FilmTie = Type.Object({ film_tie_id: Id, repetition_id: Id, ...fields, updated_utc: UtcInstant });
export type FilmTie = Static<typeof FilmTie>;
