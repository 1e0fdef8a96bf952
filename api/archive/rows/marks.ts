import { canonicalJson, sha256 } from '../../measuring/provenance.ts';

/** A row's fields by name; numbers of other rows are their unique identifiers. */
export type Fields = Record<string, unknown>;
/** Short texts that are equal where the values are. */
export type Marks = Record<string, string>;

const LONGEST = 100;

/** What a value is told apart by: itself, or its SHA-256 where it is long. Absent is null. */
export function markOf(value: unknown): string {
  const text = canonicalJson(value ?? null);
  return text.length > LONGEST ? `#${sha256(text)}` : text;
}

export function marksOf(fields: Fields): Marks {
  return Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, markOf(value)]));
}
