import { type Static, Type } from 'typebox';
import { LocalDate, Nullable, wordOf } from '../common.ts';
import { Sourced } from './caution.ts';

/** What a mark stands for; the pens of the page and of the PDF each choose their colour. */
export const TONES = ['ink', 'soft', 'rule', 'band', 'left', 'right', 'beyond', 'earlier', 'paper'] as const;
export type Tone = (typeof TONES)[number];
const Tone = wordOf(TONES);

/** One stroke of a picture, in points from the upper left corner. Drawn in order. */
export const Shape = Type.Union([
  Type.Object({
    kind: Type.Literal('line'),
    points: Type.Array(Type.Tuple([Type.Number(), Type.Number()])),
    tone: Tone,
    width: Type.Number(),
    dashed: Type.Boolean(),
  }),
  Type.Object({
    kind: Type.Literal('area'),
    points: Type.Array(Type.Tuple([Type.Number(), Type.Number()])),
    tone: Tone,
  }),
  Type.Object({
    kind: Type.Literal('mark'),
    form: wordOf(['circle', 'square', 'diamond', 'ring'] as const),
    x: Type.Number(),
    y: Type.Number(),
    size: Type.Number(),
    tone: Tone,
  }),
  Type.Object({
    kind: Type.Literal('text'),
    x: Type.Number(),
    y: Type.Number(),
    text: Type.String(),
    size: Type.Number(),
    bold: Type.Boolean(),
    anchor: wordOf(['start', 'middle', 'end'] as const),
    tone: Tone,
  }),
]);
export type Shape = Static<typeof Shape>;

/** One picture of a report, drawn once and put on screen and on paper from the same shapes. */
export const Picture = Type.Object({
  title: Type.String(),
  /** Said to those who cannot see it. */
  description: Type.String(),
  width: Type.Number(),
  height: Type.Number(),
  shapes: Type.Array(Shape),
});
export type Picture = Static<typeof Picture>;

/** One page to hand to an athlete: at most five sentences and three pictures. */
export const Report = Type.Object({
  kind: wordOf(['repetition', 'session', 'month'] as const),
  name: Type.String(),
  title: Type.String(),
  date: LocalDate,
  sentences: Type.Array(Type.String(), { maxItems: 5 }),
  pictures: Type.Array(Picture, { maxItems: 3 }),
  cautions: Type.Array(Sourced),
  note: Nullable(Type.String()),
});
export type Report = Static<typeof Report>;
