import type { AxisColumns } from '../../shared/sample-block.ts';
import { cubicHermite } from '../numeric/cubic-hermite.ts';

/** A sample this close to the greatest value that clipped samples show sits at the full scale. */
const AT_FULL_SCALE = 0.995;

/**
 * Acceleration with every run of clipped samples bridged by the cubic that goes on with the values and slopes on both sides.
 * It does not restore what was lost; it takes away the corners at which a swing runs into the full scale and out of it, which
 * would look like blows. Runs that a blow itself runs into stay as they are.
 * @param acc n samples an axis, m/s2
 * @param clipped 1 where any axis sits at its full scale
 * @returns the columns themselves where nothing is clipped
 */
export function bridgeClipped(acc: AxisColumns, clipped: Uint8Array): AxisColumns {
  let top = 0;
  for (let i = 0; i < clipped.length; i++) {
    if (clipped[i]) top = Math.max(top, Math.abs(acc.x[i]), Math.abs(acc.y[i]), Math.abs(acc.z[i]));
  }
  if (top === 0) return acc;
  const limit = AT_FULL_SCALE * top;
  return { x: bridged(acc.x, limit), y: bridged(acc.y, limit), z: bridged(acc.z, limit) };
}

function bridged(x: Float64Array, limit: number): Float64Array {
  const out = x.slice();
  for (let i = 2; i < x.length; i++) {
    if (!(Math.abs(x[i]) >= limit)) continue;
    let end = i;
    while (end < x.length && Math.abs(x[end]) >= limit) end++;
    if (end + 1 >= x.length) break;
    if (!enteredByBlow(x, i, limit)) {
      const before = i - 1;
      const width = end - before;
      const [rise, fall] = [x[before] - x[before - 1], x[end + 1] - x[end]];
      for (let k = i; k < end; k++) out[k] = cubicHermite((k - before) / width, width, x[before], x[end], rise, fall);
    }
    i = end;
  }
  return out;
}

/** How much steeper than the step before it the last step into a run may be when a swing runs into the full scale. */
const STEEPER = 2;
/** Steps of this part of the full scale are noise. */
const NOISE = 0.03;

function enteredByBlow(x: Float64Array, first: number, limit: number): boolean {
  const step = Math.abs(x[first] - x[first - 1]);
  const before = Math.abs(x[first - 1] - x[first - 2]);
  return step > STEEPER * before + NOISE * limit;
}
