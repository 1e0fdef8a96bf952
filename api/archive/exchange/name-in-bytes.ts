const SHORTEST = 3;
/** Bytes of the end of a piece that are looked at again with the next: longer than any word of a name. */
const OVERLAP = 128;

/**
 * Looks for a person's name in the bytes of a file, piece by piece, whatever case it is written in: loggers write whom they think they
 * are on into the head of a file. UTF-8, Latin-1 and UTF-16; words of at least three letters, not inside longer words.
 */
export class NameFinder {
  readonly #words: RegExp | null;
  #rest = '';
  found = false;

  constructor(name: string) {
    const words = name
      .toLowerCase()
      .split(/[^\p{L}]+/u)
      .filter((word) => word.length >= SHORTEST || /[^a-z]/.test(word));
    const forms = words.flatMap((word) => [word, Buffer.from(word).toString('latin1').toLowerCase()]);
    const letter = 'a-z\\u00c0-\\u00ff';
    // Of a letter beyond ASCII any bytes will do: its capital has others.
    const choice = [...new Set(forms)].map((form) => form.replaceAll(/[^a-z]/g, '.')).join('|');
    this.#words = words.length === 0 ? null : new RegExp(`(?<![${letter}])(?:${choice})(?![${letter}])`);
  }

  /** Looks into the next bytes. */
  look(bytes: Uint8Array): void {
    if (this.found || this.#words === null) return;
    const text = (this.#rest + Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('latin1'))
      .replaceAll('\0', '')
      .toLowerCase();
    this.found = this.#words.test(text);
    this.#rest = text.slice(-OVERLAP);
  }
}
