/** Which small picture goes with a finding. */
export type FindingPicture =
  | 'even'
  | 'gap'
  | 'flat-top'
  | 'coarse'
  | 'off-level'
  | 'noise'
  | 'mirrored'
  | 'ringing'
  | 'turned'
  | 'swapped'
  | 'other-place';

/** Something about a recording in a coach's words. */
export interface Finding {
  picture: FindingPicture;
  /** In a few words, for where there is little room. */
  short: string;
  what: string;
  /** What to do before the next repetition; empty when all is well. */
  todo: string;
  /** Many a shoe sensor ends at 16 g, which a landing passes. */
  everyday?: true;
}
