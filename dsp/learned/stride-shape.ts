import type { ShapeColumns } from '../events/foot-contact.ts';

/** The shape is read from so long before the anchor to so long after it, at so many places a stride. */
export const SHAPE = { before: 0.15, after: 0.75, per_stride: 100 };

/** Places that each column is read at. */
export const SHAPE_PLACES = Math.round((SHAPE.before + SHAPE.after) * SHAPE.per_stride) + 1;

/** Shares of a stride and stride times are written in ten-thousandths, so that whole numbers do. */
const PART = 1e4;

/** Stands for a toe-off that the first stage did not find. */
const NOT_FOUND = -PART;

/**
 * Numbers of a shape with so many columns.
 * @param columns of the sensor's signals
 * @returns count
 */
export function shapeLength(columns: number): number {
  return columns * SHAPE_PLACES + (SHAPE_PLACES - 1) + 2;
}

/**
 * One contact as numbers that do not depend on sampling rate, mounting angle or pace: its columns at places that are shares of
 * the stride about an anchor, the slope of the first, what the first stage takes for toe-off, and the stride time.
 * @param anchor_s what the shape is centred on (the first stage's touchdown), sensor clock
 * @param toe_off_s the first stage's toe-off; null when it found none
 * @param scales whole numbers a unit, one a column: a shape is stored and judged in 16 bits
 * @returns Int16Array(shapeLength(columns)); null where the recording does not reach so far
 */
export function strideShape(
  { rate_hz, start_s, stride_s, columns, factors }: ShapeColumns,
  anchor_s: number,
  toe_off_s: number | null,
  scales: readonly number[],
): Int16Array | null {
  if (scales.length !== columns.length)
    throw new Error(`A model of ${scales.length} columns is asked about ${columns.length}.`);
  const out = new Int16Array(shapeLength(columns.length));
  const first = (anchor_s - start_s) * rate_hz;
  const stride = stride_s * rate_hz;
  let k = 0;
  for (const [c, column] of columns.entries()) {
    for (let j = 0; j < SHAPE_PLACES; j++) {
      const value = valueAt(column, first + (j / SHAPE.per_stride - SHAPE.before) * stride, REACH * stride);
      if (Number.isNaN(value)) return null;
      out[k++] = whole(value * factors[c] * scales[c]);
    }
  }
  for (let j = 1; j < SHAPE_PLACES; j++) out[k++] = whole(SLOPE * (out[j] - out[j - 1]));
  out[k++] = toe_off_s === null ? NOT_FOUND : whole((PART * (toe_off_s - anchor_s)) / stride_s);
  out[k++] = whole(PART * stride_s);
  return out;
}

/** Beyond the ends of a column by this part of a stride its last value stands in. */
const REACH = 0.06;

/** The slope from place to place is small beside the values themselves. */
const SLOPE = 5;

function valueAt(x: Float64Array, at: number, reach: number): number {
  if (at < -reach || at > x.length - 1 + reach) return Number.NaN;
  const inside = Math.min(Math.max(at, 0), x.length - 1);
  const i = Math.min(Math.floor(inside), x.length - 2);
  return x[i] + (x[i + 1] - x[i]) * (inside - i);
}

function whole(value: number): number {
  return Math.round(Math.min(32767, Math.max(-32768, value)));
}
