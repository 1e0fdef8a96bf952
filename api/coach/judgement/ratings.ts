import { FaultError } from '../../../shared/fault.ts';
import type { Rating, RatingBody } from '../../../shared/schemas/coach/field-view.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { coachQuery } from '../../store/coach-tables.ts';
import { findFocus } from '../focuses.ts';

/** What no sensor on the leg sees; rated by the coach's eye. */
export const EYE_ASPECTS = ['arms', 'head', 'trunk'] as const;

/** The coach's ratings and notes of one repetition. */
export function listRatings(store: Store, repetition_id: number): Rating[] {
  return store.all(
    coachQuery(store)
      .selectFrom('repetition_ratings')
      .select(['repetition_id', 'aspect', 'rating', 'note'])
      .where('repetition_id', '=', repetition_id)
      .orderBy('aspect'),
  );
}

/**
 * Keeps a rating of 1 to 5 and a note with the repetition; null and an empty note take it away.
 * @throws FaultError RATING_ASPECT_UNKNOWN
 */
export function setRating(store: Store, repetition_id: number, aspect: string, body: RatingBody): Rating[] {
  getRepetitionLine(store, repetition_id);
  if (!findFocus(aspect) && !(EYE_ASPECTS as readonly string[]).includes(aspect)) {
    throw new FaultError({
      code: 'RATING_ASPECT_UNKNOWN',
      message: `"${aspect}" cannot be rated; it must be a focus or one of ${EYE_ASPECTS.join(', ')}. Nothing was stored.`,
      where: { field: 'aspect', value: aspect },
      hint: 'The focuses are listed at /api/coach/focuses.',
    });
  }
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
