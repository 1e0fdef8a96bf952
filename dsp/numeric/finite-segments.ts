/** A half-open range of indices: start inclusive, end exclusive. */
export interface IndexRange {
  start: number;
  end: number;
}

/**
 * The stretches of consecutive finite samples, in order.
 * @param x samples; NaN and infinities part the stretches
 */
export function finiteSegments(x: ArrayLike<number>): IndexRange[] {
  const segments: IndexRange[] = [];
  for (let i = 0; i < x.length; ) {
    while (i < x.length && !Number.isFinite(x[i])) i++;
    const start = i;
    while (i < x.length && Number.isFinite(x[i])) i++;
    if (i > start) segments.push({ start, end: i });
  }
  return segments;
}
