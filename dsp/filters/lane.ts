/** One signal on its way through a cascade. */
export interface Lane {
  /** Of each section in turn: its last input, the one before it, its last output, the one before it. All gains are applied first. */
  readonly history: Float64Array;
  readonly from: Float64Array;
  /** May be `from` itself. */
  readonly to: Float64Array;
}

/**
 * A cascade as the loops take it: columns of numbers have one type for the engine, whoever made the sections.
 * All gains together, then b1, a1 and a2 of each section.
 */
export type Cascade = Float64Array;

/** Samples of a lane that follow each other, an even number. */
export interface Stretch {
  /** Index of the first. */
  first: number;
  /** 1 forwards, -1 backwards. */
  step: 1 | -1;
  count: number;
}
