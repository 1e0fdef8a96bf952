import type { ShapeColumns } from '../events/foot-contact.ts';
import { burstMiddle } from '../numeric/burst-middle.ts';

/** Where the landing's burst of change is sought about a first guess of touchdown, strides, and the shares of its energy it is dated by. */
const BURST = { before: 0.05, after: 0.08, parts: [0.1, 0.5] };

/**
 * What the shape of a contact is read about: half way between the first stage's touchdown and the burst of the landing near it. The
 * first stage jumps between features of one landing (heel, forefoot) where the burst does not; the burst's length differs between
 * people where the first stage knows better.
 * @param shape columns about the contact, the last the length of the change of acceleration
 * @param touchdown_s touchdown as the first stage has it, sensor clock
 * @returns anchor, s, sensor clock
 */
export function landingAnchor({ columns, rate_hz, start_s, stride_s }: ShapeColumns, touchdown_s: number): number {
  const at = (touchdown_s - start_s) * rate_hz;
  const stride = stride_s * rate_hz;
  const change = columns[columns.length - 1];
  const middle = burstMiddle(change, at - BURST.before * stride, at + BURST.after * stride, BURST.parts);
  return middle === null ? touchdown_s : (touchdown_s + start_s + middle / rate_hz) / 2;
}
