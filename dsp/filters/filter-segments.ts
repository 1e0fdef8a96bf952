import { finiteSegments, type IndexRange } from '../numeric/finite-segments.ts';
import { filterChannels } from './filter-forward-backward.ts';
import type { Section } from './section.ts';

/**
 * Zero-phase filtering of a signal with gaps: each gap-free stretch is filtered apart, so that nothing leaks across.
 * @param x samples at a constant rate; NaN where nothing was measured
 * @param shortest stretches of fewer samples come back as NaN: a filter's output there says more about the padding than
 *   about the signal. 1 keeps all
 * @returns a new array of the same length, NaN in the gaps
 */
export function filterSegments(sections: readonly Section[], x: Float64Array, shortest = 1): Float64Array {
  return filterChannelSegments(sections, [x], shortest)[0];
}

/**
 * `filterSegments` for several channels at a time, which is faster where their gaps are the same.
 * @param channels of one length; NaN where nothing was measured
 * @returns new arrays, in the order of the channels
 */
export function filterChannelSegments(
  sections: readonly Section[],
  channels: readonly Float64Array[],
  shortest = 1,
): Float64Array[] {
  const stretches = channels.map(finiteSegments);
  const out = channels.map((x) => new Float64Array(x.length));
  const filter = (members: readonly Float64Array[], into: readonly Float64Array[], { start, end }: IndexRange) => {
    const cut = (x: Float64Array) => x.subarray(start, end);
    if (end - start >= shortest) filterChannels(sections, members.map(cut), into.map(cut));
  };
  if (stretches.every((own) => same(own, stretches[0]))) {
    for (const stretch of stretches[0] ?? []) filter(channels, out, stretch);
  } else {
    channels.forEach((x, c) => {
      for (const stretch of stretches[c]) filter([x], [out[c]], stretch);
    });
  }
  out.forEach((y, c) => {
    leaveGaps(y, stretches[c], shortest);
  });
  return out;
}

function leaveGaps(y: Float64Array, stretches: readonly IndexRange[], shortest: number): void {
  let from = 0;
  for (const { start, end } of stretches) {
    if (end - start < shortest) continue;
    y.fill(Number.NaN, from, start);
    from = end;
  }
  y.fill(Number.NaN, from);
}

function same(a: readonly IndexRange[], b: readonly IndexRange[]): boolean {
  return a.length === b.length && a.every(({ start, end }, k) => start === b[k].start && end === b[k].end);
}
