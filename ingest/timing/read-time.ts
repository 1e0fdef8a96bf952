/** A time as someone wrote it. */
export interface WrittenTime {
  time_s: number;
  /** Smallest step its decimals can show, seconds: 0.1 for 4.9. */
  resolution_s: number;
  /** True where it carries the letter of a hand time, as in 4.9h. */
  hand: boolean;
}

const TIME = /^(?:(\d+):)?(\d+(?:[.,](\d+))?)\s*(s|sec|secs|seconds|h)?$/i;

/**
 * Reads 4.86, 4,86, 4.86 s, 4.9h and 1:02.35. A time is kept as it was written: nothing is rounded, and nothing is added to a hand
 * time to make it look electronic.
 * @returns null where it is no time
 */
export function readTime(text: string): WrittenTime | null {
  const match = TIME.exec(text.trim());
  if (!match) return null;
  const time_s = Number(match[1] ?? 0) * 60 + Number(match[2].replace(',', '.'));
  if (match[1] && Number(match[2].replace(',', '.')) >= 60) return null;
  const decimals = match[3]?.length ?? 0;
  return { time_s, resolution_s: Number(`1e-${decimals}`), hand: match[4]?.toLowerCase() === 'h' };
}
