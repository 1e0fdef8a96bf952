import { leastSquares } from '../numeric/least-squares.ts';

/** A way that was covered between two instants, m, with its standard uncertainty. */
export interface Way {
  from_s: number;
  to_s: number;
  length_m: number;
  length_m_u: number;
}

/** Mean speed between two instants, m/s. */
export interface SpeedBetween {
  from_s: number;
  to_s: number;
  speed_mps: number;
  speed_mps_u: number;
}

/** Intervals on either side that say something of one: ways further off add nothing that the nearer do not know better. */
const REACH = 5;

/**
 * Mean speed of successive intervals from ways that cover several of them each and overlap: the speeds whose ways come
 * nearest to those measured, and whose course bends as little as a runner's does. Least squares with a penalty on second
 * differences (Whittaker 1923, Proc Edinb Math Soc 41:63-75; Eilers 2003, Anal Chem 75:3631-3636; both from memory), an
 * interval at a time from those around it.
 * @param edges_s where the intervals meet, ascending, e.g. touchdowns
 * @param bend_mps_u how much the change of speed differs from one interval to the next
 * @returns one entry an interval; null where no way covers any of it
 */
export function smoothSpeed(
  edges_s: readonly number[],
  ways: readonly Way[],
  bend_mps_u: number,
): (SpeedBetween | null)[] {
  const sorted = [...ways].sort((a, b) => a.from_s - b.from_s);
  const intervals = edges_s.length - 1;
  const result: (SpeedBetween | null)[] = [];
  let first = 0;
  for (let k = 0; k < intervals; k++) {
    const [low, high] = [Math.max(0, k - REACH), Math.min(intervals, k + 1 + REACH)];
    const edges = edges_s.slice(low, high + 1);
    while (first < sorted.length && sorted[first].from_s < edges[0] - MARGIN_S) first++;
    let end = first;
    while (end < sorted.length && sorted[end].from_s < edges_s[high]) end++;
    const within = sorted.slice(first, end).filter(({ to_s }) => to_s <= edges_s[high] + MARGIN_S);
    result.push(speedOf(k - low, edges, within, bend_mps_u));
  }
  return result;
}

/** Speed itself changes so many times more from interval to interval than its change does: 1.3 against 0.3 m/s at a start. */
const CHANGE_PER_BEND = 5;

/** Instants this near are the same. */
const MARGIN_S = 1e-9;

function speedOf(wanted: number, edges: readonly number[], ways: Way[], bend_mps_u: number): SpeedBetween | null {
  const [from_s, to_s] = [edges[wanted], edges[wanted + 1]];
  if (!ways.some((way) => overlap(way, from_s, to_s) > MARGIN_S)) return null;
  const n = edges.length - 1;
  const columns = Array.from({ length: n }, (): number[] => []);
  const y: number[] = [];
  for (const way of ways) {
    columns.forEach((column, j) => {
      column.push(overlap(way, edges[j], edges[j + 1]) / way.length_m_u);
    });
    y.push(way.length_m / way.length_m_u);
  }
  // Two ways and less show no course: all that is then known is how much a runner's speed may change.
  const [differences, u] = ways.length < 3 ? [[-1, 1], CHANGE_PER_BEND * bend_mps_u] : [[1, -2, 1], bend_mps_u];
  for (let j = 0; j + differences.length <= n; j++) {
    columns.forEach((column, i) => {
      column.push((differences[i - j] ?? 0) / u);
    });
    y.push(0);
  }
  const fit = leastSquares(columns, y);
  if (!fit) return null;
  const variance = fit.unscaled_covariance[wanted][wanted];
  return { from_s, to_s, speed_mps: fit.coefficients[wanted], speed_mps_u: Math.sqrt(variance) };
}

function overlap(way: Way, from_s: number, to_s: number): number {
  return Math.max(0, Math.min(way.to_s, to_s) - Math.max(way.from_s, from_s));
}
