import type { Notice } from '../notice-shape.ts';
import type { Speech } from './say.ts';

/** A notice as a part of another sentence: without its full stop. */
export function clause(why: Notice, say: Speech): string {
  return say.notice(why).replace(/\.\s*$/, '');
}

/** The first sentence of a notice in brackets, with the space before; nothing where it says nothing. */
export function inBrackets(why: Notice, say: Speech): string {
  const [text] = clause(why, say).split(/\.\s+(?=\p{Lu})/u);
  return text === '' ? '' : ` (${text})`;
}
