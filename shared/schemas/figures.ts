import { type Static, type TNull, type TNumber, type TUnion, Type } from 'typebox';
import { FIGURE_QUANTITIES, type FigureQuantity, UNCERTAIN_FIGURES, type UncertainFigure } from '../fields.ts';
import { Nullable, wordOf } from './common.ts';

type NullableNumber = TUnion<[TNumber, TNull]>;

const means = Object.fromEntries(
  FIGURE_QUANTITIES.flatMap((name) =>
    [name, ...UNCERTAIN_FIGURES.filter((one) => one === name).map(() => `${name}_u`)].map((column) => [
      column,
      Nullable(Type.Number()),
    ]),
  ),
) as { [Name in FigureQuantity]: NullableNumber } & { [Name in UncertainFigure as `${Name}_u`]: NullableNumber };

/** Mean values at speed, kept beside the analysis so that lists never open it. Null where not measurable. */
export const RepetitionFigures = Type.Object({
  contacts: Type.Integer(),
  /** What the means are over: 'all contacts' where no contact is known to be at speed. */
  figures_over: wordOf(['at speed', 'all contacts']),
  speed_max_mps: Nullable(Type.Number()),
  speed_max_mps_u: Nullable(Type.Number()),
  ...means,
  contact_time_left_ms: Nullable(Type.Number()),
  contact_time_right_ms: Nullable(Type.Number()),
  distance_m: Nullable(Type.Number()),
  time_s: Nullable(Type.Number()),
});
export type RepetitionFigures = Static<typeof RepetitionFigures>;

/** Names of the figures, as columns of the store. */
export const FIGURE_COLUMNS = Object.keys(RepetitionFigures.properties) as (keyof RepetitionFigures)[];
