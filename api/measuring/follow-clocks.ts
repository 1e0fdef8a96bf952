import { lagNear } from '../../ingest/clock/lag-near.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import { freeMemory } from '../free-memory.ts';
import { instantOf, indexAt, readPart, type SampleSource } from '../store/sample-source.ts';

/** Samples of one look at both feet. */
const LOOK_SAMPLES = 100_000;
/** Less than half a step of the fastest runner: the right stride cannot be missed. */
const WITHIN_S = 0.08;
/** Looks at one place that may hold no running before the next place is tried. */
const LOOKS_AT_A_PLACE = 6;
/** Clocks that lie this far off a straight line cannot be trusted between the looks. */
const MOST_WANDER_S = 0.01;

interface Look {
  common_s: number;
  correction_s: number;
}

/**
 * Two clocks that have nothing in common were paired by the beginning of a long recording; how fast they part is known from there to
 * some millionths only, which is tens of milliseconds over hours. The steps are looked at again further on, at twice the time
 * each, and the drift is set by all of them. Changes the right source's offset, drift and uncertainty.
 * @param head_s length of the beginning that was aligned, seconds
 * @returns what is in doubt then
 */
export function followClocks(left: SampleSource, right: SampleSource, head_s: number): Fault[] {
  const end_s = Math.min(instantOf(left, left.samples - 1), instantOf(right, right.samples - 1));
  const zero_s = Math.max(left.clock_offset_s, right.clock_offset_s) + 0.5 * head_s;
  const looks: Look[] = [];
  const slope = () => {
    const squares = looks.reduce((sum, { common_s }) => sum + (common_s - zero_s) ** 2, 0);
    const products = looks.reduce((sum, { common_s, correction_s }) => sum + correction_s * (common_s - zero_s), 0);
    return squares > 0 ? products / squares : 0;
  };
  const length_s = LOOK_SAMPLES / Math.max(left.sampling_rate_hz, right.sampling_rate_hz);
  let reached_s = zero_s + 0.5 * head_s;
  for (let from_s = zero_s + head_s; from_s < end_s - 0.1 * length_s; from_s = zero_s + 2 * (from_s - zero_s)) {
    const place = Math.min(from_s, end_s - length_s);
    for (let look = 0; look < LOOKS_AT_A_PLACE && place + look * length_s < end_s; look++) {
      const found = lookAt(left, right, place + look * length_s, length_s, (at_s) => slope() * (at_s - zero_s));
      if (!found) continue;
      looks.push(found);
      reached_s = found.common_s;
      break;
    }
  }
  return useLooks(right, looks, slope(), zero_s, { reached_s, end_s });
}

function lookAt(
  left: SampleSource,
  right: SampleSource,
  from_s: number,
  length_s: number,
  expected: (common_s: number) => number,
): Look | null {
  const part = (source: SampleSource) => readPart(source, indexAt(source, from_s), indexAt(source, from_s + length_s));
  const [a, b] = [part(left), part(right)];
  freeMemory();
  if (a.samples.time_s.length < 2 || b.samples.time_s.length < 2) return null;
  const lag_s = b.clock_offset_s - a.clock_offset_s;
  const correction_s = expected(from_s + 0.5 * length_s);
  const found = lagNear(a.samples, b.samples, lag_s + correction_s, WITHIN_S);
  freeMemory();
  if (!found) return null;
  // The part's own drift against the common clock is millionths of some minutes.
  const common_s = a.clock_offset_s + found.at_s;
  return { common_s, correction_s: found.lag_s - lag_s - b.clock_drift * (found.at_s - lag_s) };
}

function useLooks(
  right: SampleSource,
  looks: Look[],
  slope: number,
  zero_s: number,
  { reached_s, end_s }: { reached_s: number; end_s: number },
): Fault[] {
  const squares = looks.map(({ common_s, correction_s }) => (correction_s - slope * (common_s - zero_s)) ** 2);
  const wander_s = looks.length > 0 ? Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / looks.length) : 0;
  // What lay at c on the common clock lies at c + slope (c - zero).
  right.clock_offset_s += slope * (right.clock_offset_s - zero_s);
  right.clock_drift = (1 + right.clock_drift) * (1 + slope) - 1;
  right.clock_offset_u_s = Math.hypot(right.clock_offset_u_s, wander_s);
  const unseen_s = end_s - reached_s;
  if (wander_s <= MOST_WANDER_S && unseen_s <= Math.max(600, reached_s - zero_s)) return [];
  const where = { compared_until_s: reached_s, ends_s: end_s };
  return [
    wander_s > MOST_WANDER_S
      ? fault('CLOCKS_UNCERTAIN.uneven', { wander_s }, where)
      : fault('CLOCKS_UNCERTAIN.last_compared', { reached_s, end_s }, where),
  ];
}
