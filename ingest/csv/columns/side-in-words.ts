import type { Side } from '../../../shared/words.ts';
import { LEFT_WORDS, RIGHT_WORDS } from './column-words.ts';
import { foldedWords } from './fold-text.ts';

/** The side a free text speaks of: a file's name, a cell, a line; 'unknown' where it speaks of none or both. */
export function sideInWords(text: string): Side {
  const words = foldedWords(text).flatMap((word) => word.split(/[^\p{L}]+/u));
  // A whole word tells more than a letter: the R of 'R2_left' is no side.
  for (const sure of [true, false]) {
    const said = words.filter((word) => !sure || word.length > 2 || /\p{Lo}/u.test(word));
    const left = said.some((word) => LEFT_WORDS.includes(word));
    const right = said.some((word) => RIGHT_WORDS.includes(word));
    if (left !== right) return left ? 'left' : 'right';
    if (left && right) return 'unknown';
  }
  return 'unknown';
}
