import { FaultError, fault } from '../../../shared/fault.ts';
import type { Rating, RatingBody } from '../../../shared/schemas/coach/field-view.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { coachQuery } from '../../store/coach-tables.ts';
import { findFocus } from '../own-focuses.ts';

/** What no sensor on the leg sees; rated by the coach's eye. */
export const EYE_ASPECTS = ['arms', 'head', 'trunk'] as const;

/** The coach's ratings, notes and photographs of one repetition, by aspect. */
export function listRatings(store: Store, repetition_id: number): Rating[] {
  const rows = store
    .prepare(
      `SELECT @id AS repetition_id, a.aspect, g.rating, COALESCE(g.note, '') AS note, p.aspect IS NOT NULL AS has_photo
       FROM (SELECT aspect FROM repetition_ratings WHERE repetition_id = @id
             UNION SELECT aspect FROM rating_photos WHERE repetition_id = @id) a
       LEFT JOIN repetition_ratings g ON g.repetition_id = @id AND g.aspect = a.aspect
       LEFT JOIN rating_photos p ON p.repetition_id = @id AND p.aspect = a.aspect
       ORDER BY a.aspect`,
    )
    .all({ id: repetition_id }) as (Omit<Rating, 'has_photo'> & { has_photo: number })[];
  return rows.map((row) => ({ ...row, has_photo: row.has_photo === 1 }));
}

/**
 * Keeps a rating of 1 to 5 and a note with the repetition; null and an empty note take it away.
 * @throws FaultError RATING_ASPECT_UNKNOWN
 */
export function setRating(store: Store, repetition_id: number, aspect: string, body: RatingBody): Rating[] {
  getRepetitionLine(store, repetition_id);
  checkAspect(store, aspect);
  const query = coachQuery(store);
  if (body.rating === null && body.note === '') {
    store.run(
      query.deleteFrom('repetition_ratings').where('repetition_id', '=', repetition_id).where('aspect', '=', aspect),
    );
  } else {
    const kept = { ...body, updated_utc: nowUtc() };
    store.run(
      query
        .insertInto('repetition_ratings')
        .values({ repetition_id, aspect, ...kept })
        .onConflict((conflict) => conflict.columns(['repetition_id', 'aspect']).doUpdateSet(kept)),
    );
  }
  return listRatings(store, repetition_id);
}

/** @throws FaultError RATING_ASPECT_UNKNOWN */
export function checkAspect(store: Store, aspect: string): void {
  if (findFocus(store, aspect) || (EYE_ASPECTS as readonly string[]).includes(aspect)) return;
  throw new FaultError(
    fault('RATING_ASPECT_UNKNOWN', { aspect, known: [...EYE_ASPECTS] }, { field: 'aspect', value: aspect }),
  );
}
