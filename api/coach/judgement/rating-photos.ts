import { FaultError, fault } from '../../../shared/fault.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { checkAspect } from './ratings.ts';

/** Pictures a browser can show, by their first bytes; what a client says of itself is not believed. */
const KINDS: readonly { media_type: string; begins: readonly number[] }[] = [
  { media_type: 'image/jpeg', begins: [0xff, 0xd8, 0xff] },
  { media_type: 'image/png', begins: [0x89, 0x50, 0x4e, 0x47] },
  { media_type: 'image/webp', begins: [0x52, 0x49, 0x46, 0x46] },
];
export const LARGEST_PHOTO_BYTES = 6 * 1024 * 1024;

export interface RatingPhoto {
  media_type: string;
  bytes: Buffer;
}

/**
 * Keeps one photograph beside a rating, in place of the one before.
 * @throws FaultError RATING_ASPECT_UNKNOWN, PHOTO_UNREADABLE
 */
export function setRatingPhoto(store: Store, repetition_id: number, aspect: string, bytes: Buffer): void {
  getRepetitionLine(store, repetition_id);
  checkAspect(store, aspect);
  const kind = KINDS.find(({ begins }) => begins.every((byte, i) => bytes[i] === byte));
  if (!kind) {
    throw new FaultError(fault('PHOTO_UNREADABLE', { bytes: bytes.length }, { field: 'photo' }));
  }
  store
    .prepare(
      `INSERT INTO rating_photos (repetition_id, aspect, media_type, bytes, added_utc) VALUES (?, ?, ?, ?, ?)
       ON CONFLICT (repetition_id, aspect) DO UPDATE
       SET media_type = excluded.media_type, bytes = excluded.bytes, added_utc = excluded.added_utc`,
    )
    .run(repetition_id, aspect, kind.media_type, bytes, nowUtc());
}

/** @throws FaultError PHOTO_NOT_FOUND */
export function getRatingPhoto(store: Store, repetition_id: number, aspect: string): RatingPhoto {
  const row = store
    .prepare('SELECT media_type, bytes FROM rating_photos WHERE repetition_id = ? AND aspect = ?')
    .get(repetition_id, aspect) as RatingPhoto | undefined;
  if (row) return row;
  throw new FaultError(fault('PHOTO_NOT_FOUND', { repetition_id, aspect }, { repetition_id, aspect }));
}

export function deleteRatingPhoto(store: Store, repetition_id: number, aspect: string): void {
  store.prepare('DELETE FROM rating_photos WHERE repetition_id = ? AND aspect = ?').run(repetition_id, aspect);
}
