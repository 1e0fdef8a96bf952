import { median } from '../../numeric/statistics.ts';
import type { AnchoredStride } from './accelerometer-strides.ts';

/**
 * Where an instant should be by those around it: as long after the stride's anchor, in parts of a stride.
 * @param found the instant of each stride, sample index; below 0 where none was found
 * @param rate_hz samples a second
 * @param neighbours strides asked on either side
 * @returns sample indices, one a stride; null where no neighbour has one
 */
export function placesOfNeighbours(
  strides: AnchoredStride[],
  found: number[],
  rate_hz: number,
  neighbours: number,
): (number | null)[] {
  const share = strides.map(({ anchor, stride_s }, k) =>
    found[k] < 0 ? Number.NaN : (found[k] - anchor) / (stride_s * rate_hz),
  );
  return strides.map(({ anchor, stride_s }, k) => {
    const around = share.slice(Math.max(0, k - neighbours), k + neighbours + 1).filter(Number.isFinite);
    return around.length > 0 ? anchor + median(around) * stride_s * rate_hz : null;
  });
}
