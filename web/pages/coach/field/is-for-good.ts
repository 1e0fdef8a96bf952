import { ApiFault } from '../../../client.ts';

/** Whether a refusal will be the same next time (what it is about is gone, or it cannot be read): then waiting helps nobody. */
export function isForGood(error: unknown): boolean {
  return error instanceof ApiFault && [400, 404, 410, 413, 415, 422].includes(error.status);
}
