import { because, type CodedReason } from '../../../shared/reason.ts';
import type { TextShape } from '../../../shared/schemas/layout.ts';
import { FILLER_WORDS, LEFT_WORDS, LONG_WORDS, RIGHT_WORDS, SHORT_WORDS } from '../columns/column-words.ts';
import { foldedWords, foldText } from '../columns/fold-text.ts';

type Encoding = TextShape['encoding'];

/** Code pages in the order in which they win where several make as many known words. */
const PAGES: Encoding[] = [
  'windows-1252',
  'windows-1250',
  'iso-8859-2',
  'windows-1254',
  'windows-1251',
  'windows-1253',
  'koi8-r',
  'windows-1255',
  'windows-1256',
  'windows-874',
  'windows-1258',
  'shift_jis',
  'gb18030',
  'euc-kr',
  'euc-jp',
];
const LONGEST_LOOK = 16_384;

/** Words of the sampling rate, as they stand above a table. */
const RATE_WORDS =
  'частота дискретизации гц サンプリング周波数 サンプリング 周波数 采样率 采样频率 frequence echantillonnage 샘플링 주파수'
    .split(' ')
    .map(foldText);

const KNOWN = new Set(
  [...Object.values(SHORT_WORDS), LEFT_WORDS, RIGHT_WORDS, FILLER_WORDS, RATE_WORDS]
    .flat()
    .filter((word) => word.length > 1 || /\p{Script=Han}/u.test(word)),
);
const PARTS = LONG_WORDS.flatMap(([, parts]) => parts);

/**
 * The code page of bytes that are no UTF-8: the one in which most words of a recording's names are known. Numbers are the same in
 * all of them.
 */
export function sniffCodePage(bytes: Uint8Array): { encoding: Encoding; because: CodedReason } {
  const text = linesBeyondAscii(bytes);
  let best: { encoding: Encoding; words: string[] } = { encoding: PAGES[0], words: [] };
  for (const encoding of PAGES) {
    const words = knownWords(text, encoding);
    // Letters count, not words: a short word comes about by chance in a page that is not meant.
    if (letters(words) > letters(best.words)) best = { encoding, words };
  }
  const words = [...new Set(best.words)].slice(0, 3);
  const why = words.length > 0 ? because('by_code_page', { encoding: best.encoding, words }) : because('by_no_utf8');
  return { encoding: best.encoding, because: why };
}

const letters = (words: string[]) => words.reduce((sum, word) => sum + word.length, 0);

/** Lines that hold a byte beyond ASCII: names and remarks, whatever the size of the table below. */
function linesBeyondAscii(bytes: Uint8Array): Buffer {
  const pieces: Uint8Array[] = [];
  let length = 0;
  for (let from = 0; from < bytes.length && length < LONGEST_LOOK; ) {
    let end = from;
    let beyond = false;
    while (end < bytes.length && bytes[end] !== 10 && bytes[end] !== 13) if (bytes[end++] > 127) beyond = true;
    if (beyond) {
      pieces.push(bytes.subarray(from, Math.min(end, from + LONGEST_LOOK)), Buffer.from('\n'));
      length += end - from;
    }
    from = end + 1;
  }
  return Buffer.concat(pieces);
}

function knownWords(bytes: Uint8Array, encoding: Encoding): string[] {
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes, { stream: true });
  } catch {
    return [];
  }
  return text.split('\n').flatMap((line) => {
    // A word counts where a letter beyond ASCII made it: the others are the same in every page.
    const beyond = line.split(/[\t,;|"]/).filter((cell) => /[^\0-\x7f]/.test(cell));
    return beyond.flatMap((cell) => {
      const words = foldedWords(cell);
      const joined = words.join('');
      const part = PARTS.find((candidate) => joined.includes(candidate));
      // Of a known word, a letter beyond ASCII must be part: 'sağ', not 'sol'.
      const spelled = cell.split(/[^\p{L}\p{M}\p{N}]+/u).filter((word) => /[^\0-\x7f]/.test(word));
      const known = spelled.flatMap((word) => foldedWords(word)).filter((word) => KNOWN.has(word));
      return [...(part ? [part] : []), ...known];
    });
  });
}
