/** Text in the code pages of the world, by turning the platform's decoders round: it has no encoders for them. */
const inverses = new Map<string, Map<string, Buffer>>();

/** @returns the bytes, or null where the page lacks a character of the text */
export function encode(text: string, page: string): Buffer | null {
  if (page === 'utf-8') return Buffer.from(text, 'utf8');
  if (page === 'utf-8-bom') return Buffer.from(`\uFEFF${text}`, 'utf8');
  if (page === 'utf-16le') return Buffer.from(text, 'utf16le');
  if (page === 'utf-16le-bom') return Buffer.from(`\uFEFF${text}`, 'utf16le');
  if (page === 'utf-16be-bom') return Buffer.from(`\uFEFF${text}`, 'utf16le').swap16();
  const inverse = inverseOf(page);
  const pieces: Buffer[] = [];
  let plain = '';
  for (const character of text) {
    if (character.charCodeAt(0) < 128) {
      plain += character;
      continue;
    }
    const bytes = inverse.get(character);
    if (!bytes) return null;
    pieces.push(Buffer.from(plain, 'latin1'), bytes);
    plain = '';
  }
  pieces.push(Buffer.from(plain, 'latin1'));
  return Buffer.concat(pieces);
}

function inverseOf(page: string): Map<string, Buffer> {
  const known = inverses.get(page);
  if (known) return known;
  const decoder = new TextDecoder(page, { fatal: true });
  const inverse = new Map<string, Buffer>();
  const learn = (bytes: number[]) => {
    try {
      const text = decoder.decode(Buffer.from(bytes));
      if ([...text].length === 1 && !inverse.has(text)) inverse.set(text, Buffer.from(bytes));
    } catch {
      // No character of this page.
    }
  };
  for (let lead = 128; lead < 256; lead++) learn([lead]);
  if (/shift|gb|euc|big5/.test(page))
    for (let lead = 129; lead < 255; lead++) for (let trail = 64; trail < 255; trail++) learn([lead, trail]);
  inverses.set(page, inverse);
  return inverse;
}
