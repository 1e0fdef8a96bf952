import type { RawChunk } from '../../store/raw-files.ts';
import type { Exchange } from './exchange.ts';

/** Stands before the encoding of a chunk that the club sealed. */
const SEALED = 'sealed ';

/** Where the name of a raw file belongs: it opens nowhere else. Each of its chunks has a place of its own. */
export function placeOfRaw(x: Exchange, raw_sha256: string): string {
  return `${x.club_id}/raw/${raw_sha256}`;
}

const placeOfChunk = (x: Exchange, raw_sha256: string, sequence: number) => `${placeOfRaw(x, raw_sha256)}/${sequence}`;

/** A stored chunk sealed, as it leaves a club. */
export function sealedChunk(x: Exchange, raw_sha256: string, { sequence, encoding, bytes }: RawChunk) {
  const sealed = x.hidden.packBytes(bytes, placeOfChunk(x, raw_sha256, sequence));
  return { sequence, encoding: SEALED + encoding, bytes: sealed };
}

/** The chunks of a raw file in the archive as the club stored them, one after the other; bytes are null where they stay sealed. */
export async function* archivedChunks(
  x: Exchange,
  raw_sha256: string,
): AsyncGenerator<Omit<RawChunk, 'bytes'> & { bytes: Uint8Array | null }> {
  for (let sequence = 0; ; sequence++) {
    const { rows } = await x.client.query<{ encoding: string; bytes: Buffer }>(
      'SELECT encoding, bytes FROM archive.raw_chunks WHERE club_id = $1 AND raw_sha256 = $2 AND sequence = $3',
      [x.club_id, raw_sha256, sequence],
    );
    if (rows.length === 0) return;
    const [{ encoding, bytes }] = rows;
    if (!encoding.startsWith(SEALED)) yield { sequence, encoding, bytes };
    else {
      const own = x.hidden.openBytes(bytes, placeOfChunk(x, raw_sha256, sequence));
      yield { sequence, encoding: encoding.slice(SEALED.length), bytes: own };
    }
  }
}
