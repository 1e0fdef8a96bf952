import type { Rating, RatingBody } from '../../../shared/schemas/coach/field-view.ts';
import { FaultError } from '../../../shared/fault.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { coachQuery } from '../coach-tables.ts';
import { techniquePoint } from './technique-points.ts';

/** What no sensor on the leg sees; rated by the coach's eye. */
export const EYE_POINTS = ['arms', 'head', 'trunk'] as const;

/** The coach's ratings and notes of one repetition. */
export function listRatings(store: Store, repetition_id: number): Rating[] {
  return store.all(
    coachQuery(store)
      .selectFrom('repetition_ratings')
      .select(['repetition_id', 'point', 'rating', 'note'])
      .where('repetition_id', '=', repetition_id)
      .orderBy('point'),
  );
}

/**
 * Keeps a rating of 1 to 5 and a note with the repetition; null and an empty note take it away.
 * @throws FaultError RATING_POINT_UNKNOWN
 */
export function setRating(store: Store, repetition_id: number, point: string, body: RatingBody): Rating[] {
  getRepetitionLine(store, repetition_id);
  if (!techniquePoint(point) && !(EYE_POINTS as readonly string[]).includes(point)) {
    throw new FaultError({
      code: 'RATING_POINT_UNKNOWN',
      message: `"${point}" cannot be rated; it must be a technique point or one of ${EYE_POINTS.join(', ')}. Nothing was stored.`,
      where: { field: 'point', value: point },
      hint: 'The technique points are listed at /api/coach/technique-points.',
    });
  }
  const query = coachQuery(store);
  if (body.rating === null && body.note === '') {
    store.run(
      query.deleteFrom('repetition_ratings').where('repetition_id', '=', repetition_id).where('point', '=', point),
    );
  } else {
    const kept = { ...body, updated_utc: nowUtc() };
    store.run(
      query
        .insertInto('repetition_ratings')
        .values({ repetition_id, point, ...kept })
        .onConflict((conflict) => conflict.columns(['repetition_id', 'point']).doUpdateSet(kept)),
    );
  }
  return listRatings(store, repetition_id);
}
