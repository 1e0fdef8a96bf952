import type { AxisColumns, Gap, SampleBlock } from '../../shared/sample-block.ts';
import { lookAtFeet, type TwoFeet } from './look-at-feet.ts';
import { unrelatedClocks } from './unrelated-clocks.ts';

/** Stretches shorter than this tell nothing of their own. */
const SHORTEST_PART_S = 4;
/** Parts may seem to overlap by what two clocks and their fits differ. */
const SLACK_S = 0.1;

export interface TiedRestarts {
  block: SampleBlock;
  /** How many restarts could not be tied although there is running after them. */
  untied: number;
}

/**
 * Where a sensor's clock started again, how long it was away is not known from its own stamps; the other foot knows. Each part between
 * restarts is put on the other foot's clock by itself, and the gaps between the parts become what they were.
 * @param block recording with gaps of unknown length (`lost_samples` null)
 * @param partner the other foot's recording of the same time
 * @returns null where there is no such gap
 */
export function tieRestarts(block: SampleBlock, partner: SampleBlock): TiedRestarts | null {
  const restarts = block.gaps.filter((gap) => gap.lost_samples === null);
  if (restarts.length === 0) return null;
  const starts = [0, ...restarts.map((gap) => block.time_s.findIndex((t) => t >= gap.end_s))].filter((row) => row >= 0);
  const parts = starts.map((from, index) => lookAtPart(block, partner, from, starts[index + 1] ?? block.time_s.length));
  placeParts(parts);
  const time_s = block.time_s.slice();
  let reference: number | null = null;
  let shift = 0;
  let untied = 0;
  for (const [index, part] of parts.entries()) {
    if (part.found_s !== null) {
      const offset = part.found_s - part.start_s;
      reference ??= offset - shift;
      shift = Math.max(shift, offset - reference);
    } else if (index > 0 && part.running > 0) untied++;
    for (let row = part.from; row < part.to; row++) time_s[row] += shift;
  }
  return { block: { ...block, time_s, gaps: movedGaps(block, time_s) }, untied };
}

interface Part {
  from: number;
  to: number;
  /** On the block's own clock, which counts the gaps as nothing. */
  start_s: number;
  feet: TwoFeet | null;
  running: number;
  /** On the partner's clock; null where it cannot be told. */
  found_s: number | null;
}

function lookAtPart(block: SampleBlock, partner: SampleBlock, from: number, to: number): Part {
  const part = cut(block, from, to);
  const long = part.time_s.length > 1 && part.time_s[part.time_s.length - 1] >= SHORTEST_PART_S;
  // The part stands on the left, because running is looked for on the left.
  const feet = long ? lookAtFeet(part, partner) : null;
  return { from, to, start_s: block.time_s[from], feet, running: feet?.steps.stretches.length ?? 0, found_s: null };
}

/** The part with the most running first; the others must come before or after it, as they do on the sensor's own clock. */
function placeParts(parts: Part[]): void {
  const inTurn = [...parts].sort((a, b) => b.running - a.running);
  for (const part of inTurn) {
    if (!part.feet) continue;
    const placed = parts.filter((other) => other.found_s !== null);
    const possible = (lag_s: number) =>
      placed.every((other) => {
        const later = -lag_s - other.found_s! - (part.start_s - other.start_s);
        return part.start_s > other.start_s ? later > -SLACK_S : later < SLACK_S;
      });
    const found = unrelatedClocks(part.feet, possible);
    if (found) part.found_s = -(found.model.lag_s - found.model.rate * found.model.at_s);
  }
}

function movedGaps(block: SampleBlock, time_s: Float64Array): Gap[] {
  return block.gaps.map((gap) => {
    const after = block.time_s.findIndex((t) => t >= gap.end_s);
    if (after <= 0) return gap;
    const [start_s, end_s] = [time_s[after - 1], time_s[after]];
    const grew = end_s - start_s - (gap.end_s - gap.start_s) > 0.5 / block.sampling_rate_hz;
    const lost_samples =
      gap.lost_samples === null && grew ? Math.round((end_s - start_s) * block.sampling_rate_hz) - 1 : gap.lost_samples;
    return { start_s, end_s, lost_samples };
  });
}

function cut(block: SampleBlock, from: number, to: number): SampleBlock {
  const first = block.time_s[from];
  const axes = ({ x, y, z }: AxisColumns): AxisColumns => ({
    x: x.subarray(from, to),
    y: y.subarray(from, to),
    z: z.subarray(from, to),
  });
  return {
    ...block,
    start_utc: null,
    clock_start_s: null,
    time_s: block.time_s.subarray(from, to).map((t) => t - first),
    acc_mps2: axes(block.acc_mps2),
    gyr_radps: block.gyr_radps && axes(block.gyr_radps),
    gaps: [],
  };
}
