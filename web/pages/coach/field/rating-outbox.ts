import { signal } from '@preact/signals';
import type { RatingBody } from '../../../../shared/schemas/coach/field-view.ts';
import { coachApi } from '../coach-api.ts';
import { keep, readKept } from '../kept.ts';
import { isForGood } from './is-for-good.ts';

interface Waiting extends RatingBody {
  repetition_id: number;
  aspect: string;
}

const NAME = 'ratings-to-send';

/** Ratings and notes that the server has not confirmed yet; kept on the device, so that a dead spot loses nothing. */
export const waitingRatings = signal<Waiting[]>(readKept<Waiting[]>(NAME) ?? []);

/** Sent ratings that no answer of the server has shown yet: without them a rating would blink back for a moment. */
export const sentRatings = signal<readonly Waiting[]>([]);

/** Forgets ratings that were sent before an answer was asked for; the answer holds them. */
export function forgetSent(sent: readonly Waiting[]): void {
  sentRatings.value = sentRatings.peek().filter((entry) => !sent.includes(entry));
}

function set(waiting: Waiting[]): void {
  waitingRatings.value = waiting;
  keep(NAME, waiting);
}

const isSame = (a: Waiting, b: Pick<Waiting, 'repetition_id' | 'aspect'>) =>
  a.repetition_id === b.repetition_id && a.aspect === b.aspect;

/** Takes a rating at once and sends it when the network allows; the newest for a repetition and aspect counts. */
export async function rate(repetition_id: number, aspect: string, body: RatingBody): Promise<void> {
  const entry = { repetition_id, aspect, ...body };
  set([...waitingRatings.peek().filter((waiting) => !isSame(waiting, entry)), entry]);
  try {
    await flushRatings();
  } catch {
    // It stays waiting; the next answered question sends it.
  }
}

/** The rating shown for a repetition and aspect: the one waiting, else the one just sent, else the stored one. */
export function shownRating(
  repetition_id: number,
  aspect: string,
  stored: readonly { aspect: string; rating: number | null; note: string }[],
): RatingBody {
  return (
    [...waitingRatings.value, ...[...sentRatings.value].reverse()].find((entry) =>
      isSame(entry, { repetition_id, aspect }),
    ) ??
    stored.find((entry) => entry.aspect === aspect) ?? { rating: null, note: '' }
  );
}

/** Sends what waits. One whose repetition is gone is dropped; no network throws and keeps all. */
export async function flushRatings(): Promise<void> {
  for (const waiting of [...waitingRatings.peek()]) {
    const { repetition_id, aspect, rating, note } = waiting;
    try {
      await coachApi.rate(repetition_id, aspect, { rating, note });
      sentRatings.value = [...sentRatings.peek(), waiting];
    } catch (error) {
      if (!isForGood(error)) throw error;
    }
    set(waitingRatings.peek().filter((entry) => entry !== waiting));
  }
}
