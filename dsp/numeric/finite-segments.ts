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
  let start = -1;
  for (let i = 0; i < x.length; i++) {
    const finite = Number.isFinite(x[i]);
    if (finite && start < 0) start = i;
    if (!finite && start >= 0) {
      segments.push({ start, end: i });
      start = -1;
    }
  }
  if (start >= 0) segments.push({ start, end: x.length });
  return segments;
}
