import type { Side } from '../../../shared/words.ts';
import { sideInWords } from '../columns/side-in-words.ts';

/**
 * What a value of the column of sensors stands for where a text beside it says so: `(0 = left, 1 = right)` in the column's name,
 * `# C4:11:0A = left foot` above the table.
 * @returns the line or name that told, with the side; null where nothing does or texts contradict each other
 */
export function sideSaidOf(value: string, texts: string[]): { side: Side; told_by: string } | null {
  const escaped = value.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  const alone = (pattern: string) => `(?<![\\p{L}\\p{N}])${pattern}(?![\\p{L}\\p{N}])`;
  const word = String.raw`([\p{L}]+(?:[ _-][\p{L}]+)?)`;
  const link = String.raw`\s*(?:=>?|:|->|→|\bis\b|-|,|;|\t)\s*["']?`;
  const valueFirst = new RegExp(`${alone(escaped)}["']?${link}${word}`, 'giu');
  const wordFirst = new RegExp(`${word}["']?${link}${alone(escaped)}`, 'giu');
  const found = new Map<Side, string>();
  for (const text of texts) {
    if (!text.toLowerCase().includes(value.toLowerCase())) continue;
    // 'left = 0, right = 1' would also read '0, right': the word before the sign counts where both could.
    const before = [...text.matchAll(wordFirst)]
      .map((match) => sideInWords(match[1]))
      .filter((side) => side !== 'unknown');
    const after = [...text.matchAll(valueFirst)]
      .map((match) => sideInWords(match[1]))
      .filter((side) => side !== 'unknown');
    const equals = text.includes('=') || text.includes(':');
    const sides = equals && before.length > 0 && after.length > 0 ? nearest(text, value) : [...before, ...after];
    for (const side of sides) found.set(side, text.trim());
  }
  if (found.size !== 1) return null;
  const [[side, told_by]] = found;
  return { side, told_by };
}

/** Where a value stands between two words, the one joined to it by an equals sign or colon. */
function nearest(text: string, value: string): Side[] {
  const parts = text.split(/[,;()\t]|\s{2,}/).filter((part) => part.includes(value) && /[=:]/.test(part));
  return parts.map((part) => sideInWords(part.replace(value, ' '))).filter((side) => side !== 'unknown');
}
