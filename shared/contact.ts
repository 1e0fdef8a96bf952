import type { Reason } from './reason-shape.ts';
import type { CONTACT_FIELDS, CONTACT_MARKS, ContactQuantity, UncertainQuantity } from './fields.ts';

export type { ContactQuantity } from './fields.ts';

type Mark = keyof typeof CONTACT_MARKS;

/** What a mark's value is: a word of its vocabulary, yes or no, or a number. */
type MarkValue<Field> = Field extends { words: readonly (infer Word)[] }
  ? Word
  : Field extends { kind: 'flag' }
    ? boolean
    : number;

type Known<Field, Value> = Field extends { required: true } ? Value : Value | null;

/**
 * One ground contact; one row of steps.csv. Every field is one of shared/fields.ts, with unit, definition and source
 * there; null when not measurable. A standard uncertainty is the field plus `_u`.
 */
export type Contact = {
  [Name in Mark]: Known<(typeof CONTACT_MARKS)[Name], MarkValue<(typeof CONTACT_MARKS)[Name]>>;
} & {
  [Name in ContactQuantity]: Known<(typeof CONTACT_FIELDS)[Name], number>;
} & {
  [Name in UncertainQuantity as `${Name}_u`]: number | null;
} & {
  /** Field name -> why it is null or why its uncertainty is wide. */
  reasons: Record<string, Reason>;
};
