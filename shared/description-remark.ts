import type { Notice } from './notice-shape.ts';

/** One thing about a stream description: its place in the JSON as a pointer (/packet/header/0/type; empty for the whole), and what. */
export interface DescriptionRemark {
  field: string;
  words: Notice;
}
