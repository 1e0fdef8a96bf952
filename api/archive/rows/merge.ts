import { type Fields, type Marks, markOf } from './marks.ts';

export interface Side {
  fields: Fields;
  /** When each field was last written there, ISO 8601. */
  stamp: (field: string) => string;
}

export interface FieldConflict {
  field: string;
  kept: unknown;
  kept_utc: string;
  other: unknown;
  other_utc: string;
}

export interface Merged {
  /** What the archive lacks, and what this machine lacks. */
  to_archive: Fields;
  to_local: Fields;
  conflicts: FieldConflict[];
}

/**
 * Puts two versions of one row together, field by field: what only one side changed since both agreed is taken; what both changed
 * differently is decided for the later one, and the other value is told as a conflict. Both machines decide the same.
 * @param agreed marks of the fields when both agreed; null where they never met
 */
export function mergeRows(agreed: Marks | null, local: Side, archive: Side): Merged {
  const merged: Merged = { to_archive: {}, to_local: {}, conflicts: [] };
  for (const field of new Set([...Object.keys(local.fields), ...Object.keys(archive.fields)])) {
    const [mine, theirs, base] = [markOf(local.fields[field]), markOf(archive.fields[field]), agreed?.[field]];
    if (mine === theirs) continue;
    const here = { value: local.fields[field] ?? null, at: local.stamp(field), mark: mine };
    const there = { value: archive.fields[field] ?? null, at: archive.stamp(field), mark: theirs };
    const changed = { here: mine !== base, there: theirs !== base && field in archive.fields };
    const mineWins =
      changed.here && changed.there
        ? here.at > there.at || (here.at === there.at && here.mark > there.mark)
        : changed.here;
    if (mineWins) merged.to_archive[field] = here.value;
    else merged.to_local[field] = there.value;
    if (!changed.here || !changed.there) continue;
    const [kept, other] = mineWins ? [here, there] : [there, here];
    merged.conflicts.push({ field, kept: kept.value, kept_utc: kept.at, other: other.value, other_utc: other.at });
  }
  return merged;
}
