import { finiteSegments } from '../numeric/finite-segments.ts';
import { filterForwardBackward } from './filter-forward-backward.ts';
import type { Section } from './section.ts';

/**
 * Zero-phase filtering of a signal with gaps: each gap-free stretch is filtered apart, so that nothing leaks across.
 * @param x samples at a constant rate; NaN where nothing was measured
 * @param shortest stretches of fewer samples come back as NaN: a filter's output there says more about the padding than
 *   about the signal. 1 keeps all
 * @returns a new array of the same length, NaN in the gaps
 */
export function filterSegments(sections: readonly Section[], x: Float64Array, shortest = 1): Float64Array {
  const y = new Float64Array(x.length).fill(Number.NaN);
  for (const { start, end } of finiteSegments(x)) {
    if (end - start < shortest) continue;
    y.set(filterForwardBackward(sections, x.subarray(start, end)), start);
  }
  return y;
}
