import { getAthlete } from '../../store/athletes.ts';
import { storedChunks, unpacked } from '../../store/raw-files.ts';
import type { Exchange } from './exchange.ts';
import { NameFinder } from './name-in-bytes.ts';
import { placeOfRaw, sealedChunk } from './raw-chunks.ts';

interface RawFile {
  raw_file_id: number;
  file_name: string;
  bytes: number;
  raw_sha256: string;
  created_utc: string;
}

/**
 * Sends a raw file as the store has it, chunk by chunk. In a programme of pseudonyms a file that holds the athlete's name is sealed, or
 * stays here where the club gave no passphrase. To be called inside a transaction of the archive.
 * @returns whether it was sent
 */
export async function pushRawFile(
  x: Exchange,
  raw_file_id: number,
  athlete_id: number,
  person_id: string,
): Promise<boolean> {
  const file = x.store.prepare('SELECT * FROM raw_files WHERE raw_file_id = ?').get(raw_file_id) as RawFile;
  const names = x.level === 'pseudonyms' && holdsName(x, file, getAthlete(x.store, athlete_id, true).name);
  if (names && !x.hidden.readable) return false;
  const { rowCount } = await x.client.query(
    `INSERT INTO archive.raw_files (club_id, raw_sha256, bytes, file_name, sealed, created_utc) VALUES ($1, $2, $3, $4, $5, $6)
       ON CONFLICT DO NOTHING`,
    [
      x.club_id,
      file.raw_sha256,
      file.bytes,
      x.hidden.pack({ file_name: file.file_name }, placeOfRaw(x, file.raw_sha256)),
      names,
      file.created_utc,
    ],
  );
  await x.client.query(
    'INSERT INTO archive.raw_file_people (club_id, raw_sha256, person_id) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING',
    [x.club_id, file.raw_sha256, person_id],
  );
  // Another athlete's import of the same bytes brought it.
  if (rowCount === 0) return true;
  for (const chunk of storedChunks(x.store, raw_file_id)) {
    const { sequence, encoding, bytes } = names ? sealedChunk(x, file.raw_sha256, chunk) : chunk;
    await x.client.query(
      'INSERT INTO archive.raw_chunks (club_id, raw_sha256, sequence, encoding, bytes) VALUES ($1, $2, $3, $4, $5)',
      [x.club_id, file.raw_sha256, sequence, encoding, bytes],
    );
  }
  return true;
}

function holdsName(x: Exchange, { raw_file_id }: RawFile, name: string): boolean {
  const finder = new NameFinder(name);
  for (const chunk of storedChunks(x.store, raw_file_id)) {
    // What came packed already cannot be looked into piece by piece: it is treated as if the name stood in it.
    if (chunk.encoding !== 'gzip') return true;
    finder.look(unpacked(chunk));
    if (finder.found) return true;
  }
  return false;
}
