import type { Mounting } from '../words.ts';

/** What is said of a field, once: the types, schemas, columns and lists of every part are made from it. */

export interface FieldDefinition {
  /** Words on screen and in tables. */
  label: string;
  /** Unit as printed; '1' for a pure number. */
  unit: string;
  /** Decimals on screen. CSV files carry more. */
  decimals: number;
  definition: string;
  /** Definition's or method's source; 'common practice' where the trade has no single one. */
  source: string;
}

/** A quantity measured of one contact; null when not measurable. */
export interface ContactField extends FieldDefinition {
  level: 'contact';
  /** 'instant' and 'place' lie on the recording's clock and on the course: a mean of them says nothing. */
  kind: 'instant' | 'place' | 'quantity';
  /** Whether it has a twin with `_u`: its standard uncertainty. */
  u: boolean;
  /** Never null. */
  required?: true;
  /**
   * Its error is mostly the same in every contact of a repetition (the curve's level, the zero of an angle, the model of
   * the force): many contacts do not average it away.
   */
  shared_error?: true;
  /** The sensor's place that it can be measured from, by turning; 'gyroscope': from either. Absent: needs none of these. */
  needs?: Mounting | 'gyroscope';
  /** 'profile': offered as a stride profile; 'step': a column of repetitions.csv as well; else shown on request. */
  shown?: 'profile' | 'step';
  /** Its mean stands beside every analysis, with or without its uncertainty, so that lists never open it. */
  figure?: 'with uncertainty' | 'alone';
  /** Smallest span of a plot's axis, in its unit: below it, differences are measuring noise. */
  least_span?: number;
  /** A length of the body's own size: for a user of yards it is told in feet. */
  step_sized?: true;
}

/** What names or qualifies a contact: number, word or yes-or-no. Never has a `_u`. */
export interface ContactMark {
  level: 'contact';
  kind: 'count' | 'share' | 'instant' | 'word' | 'flag';
  unit: string;
  /** Of a number. */
  decimals?: number;
  definition: string;
  source: string;
  /** Never null. */
  required?: true;
  /** The closed vocabulary of a word. */
  words?: readonly string[];
}

/** A quantity of a whole repetition that is no mean of its contacts. */
export interface RepetitionField extends FieldDefinition {
  level: 'repetition';
  figure?: 'with uncertainty' | 'alone';
}
