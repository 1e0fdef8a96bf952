import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isSealed, openSealedFile, sealFile } from '../../../api/backup/sealed-file.ts';

const WORDS = 'four words picked at random';
const HEADER = 20 + 16 + 7;
const SEALED_PIECE = (1 << 20) + 16;
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-sealed-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const path = (name: string) => join(folder, name);

describe('a sealed file', () => {
  it.each([0, 1, (1 << 20) - 1, 1 << 20, (1 << 20) + 1, 3 << 20])('of %i bytes opens to what was sealed', (length) => {
    const bytes = Buffer.from(Array.from({ length: Math.min(length, 5000) }, (_, i) => (i * 31) & 0xff));
    const content = Buffer.alloc(length, bytes.length > 0 ? bytes : undefined);
    writeFileSync(path('plain'), content);
    sealFile(path('plain'), path('sealed'), WORDS);
    openSealedFile(path('sealed'), path('opened'), WORDS);
    expect(readFileSync(path('opened')).equals(content)).toBe(true);
    expect(isSealed(path('sealed'))).toBe(true);
    expect(isSealed(path('plain'))).toBe(false);
    expect(statSync(path('sealed')).mode & 0o777).toBe(0o600);
  });

  it('shows nothing of what it holds, and is different each time', () => {
    writeFileSync(path('plain'), 'Rosa Quill '.repeat(1000));
    sealFile(path('plain'), path('one'), WORDS);
    sealFile(path('plain'), path('two'), WORDS);
    const [one, two] = [readFileSync(path('one')), readFileSync(path('two'))];
    expect(one.includes('Rosa')).toBe(false);
    expect(one.subarray(HEADER).equals(two.subarray(HEADER))).toBe(false);
  });

  it('does not open by another passphrase, nor when a byte is changed, a piece is missing, moved, or the end is cut off', () => {
    writeFileSync(path('plain'), Buffer.alloc(3 << 20, 'abc'));
    sealFile(path('plain'), path('sealed'), WORDS);
    const good = readFileSync(path('sealed'));
    const piece = (n: number) => good.subarray(HEADER + n * SEALED_PIECE, HEADER + (n + 1) * SEALED_PIECE);
    const head = good.subarray(0, HEADER);
    const changed = Buffer.from(good);
    changed[HEADER + 100] ^= 1;
    const salted = Buffer.from(good);
    salted[25] ^= 1;
    const bad: Record<string, Buffer> = {
      changed,
      'another salt': salted,
      missing: Buffer.concat([head, piece(0), piece(2)]),
      moved: Buffer.concat([head, piece(1), piece(0), piece(2)]),
      'cut at a piece': Buffer.concat([head, piece(0), piece(1)]),
      'cut within one': good.subarray(0, good.length - 5),
      'cut to its head': head,
      longer: Buffer.concat([good, piece(0)]),
    };
    for (const [name, bytes] of Object.entries(bad)) {
      writeFileSync(path('bad'), bytes);
      expect(() => openSealedFile(path('bad'), path('opened'), WORDS), name).toThrow();
    }
    expect(() => openSealedFile(path('sealed'), path('opened'), `${WORDS} `)).toThrow();
  });
});
