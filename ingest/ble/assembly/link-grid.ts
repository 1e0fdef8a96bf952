/**
 * A radio link hands packets over at connection events, which lie on a grid (Bluetooth Core Specification, volume 6, part B, 4.5.1:
 * intervals are multiples of 1.25 ms from 7.5 ms on). How long a packet waits for the next event then follows from when it was
 * ready: so the least delay is known to the gaps between those instants on the grid, not to the whole interval.
 */

const STEP_S = 1.25e-3;
const SHORTEST_STEPS = 6;
/** Longer ones are not asked for where samples stream. */
const LONGEST_STEPS = 48;
/** The radio's and the host's clock part by less than a grid can bear within this, seconds. */
const CHUNK_S = 10;
/** Arrivals lie on a grid when their phases agree to this (mean resultant length; 0.75 is a spread of an eighth of the interval). */
const LEAST_COHERENCE = 0.75;
/** Of a grid and its multiples the widest is taken that fits nearly as well as the best. */
const NEARLY = 0.9;
const LEAST_ARRIVALS = 30;
const SAME_S = 1e-5;

/**
 * The connection interval, from arrivals alone.
 * @param arrivals_s host time, ascending
 * @returns seconds; null where arrivals lie on no grid
 */
export function linkInterval(arrivals_s: number[]): number | null {
  if (arrivals_s.length < LEAST_ARRIVALS) return null;
  const scores: number[] = [];
  for (let steps = SHORTEST_STEPS; steps <= LONGEST_STEPS; steps++) scores.push(coherence(arrivals_s, steps * STEP_S));
  const best = Math.max(...scores);
  if (best < LEAST_COHERENCE) return null;
  let widest = scores.length - 1;
  while (scores[widest] < NEARLY * best) widest--;
  return (SHORTEST_STEPS + widest) * STEP_S;
}

/** Mean resultant length of the arrivals' phases, chunk by chunk. */
function coherence(arrivals_s: number[], interval_s: number): number {
  const turn = (2 * Math.PI) / interval_s;
  let [total, at] = [0, 0];
  while (at < arrivals_s.length) {
    const until_s = arrivals_s[at] + CHUNK_S;
    let [x, y] = [0, 0];
    // At least one: a time may be so large that a chunk more is the same number.
    do {
      x += Math.cos(turn * arrivals_s[at]);
      y += Math.sin(turn * arrivals_s[at]);
      at++;
    } while (at < arrivals_s.length && arrivals_s[at] < until_s);
    total += Math.hypot(x, y);
  }
  return total / arrivals_s.length;
}

/** Packets are read a little after their event, some later than others; so small a part of them is taken to be read at once. */
const READ_AT_ONCE = 0.05;

/**
 * The connection events that packets came by: arrivals put back on the grid. What delays the reading of a packet is not in the grid's own
 * phase, which all packets of a second tell together; so one packet that had the least wait, but was read late, misleads nobody.
 * @param arrivals_s host time, over some seconds at most
 */
export function eventsOnGrid(arrivals_s: number[], interval_s: number): number[] {
  const turn = (2 * Math.PI) / interval_s;
  // From the first one on: host times may be large.
  const [zero_s] = arrivals_s;
  let [x, y] = [0, 0];
  for (const at_s of arrivals_s) {
    x += Math.cos(turn * (at_s - zero_s));
    y += Math.sin(turn * (at_s - zero_s));
  }
  const phase_s = Math.atan2(y, x) / turn;
  const off_s = arrivals_s.map((at_s) => {
    const from = (at_s - zero_s - phase_s) / interval_s;
    return (from - Math.round(from)) * interval_s;
  });
  const sorted = off_s.slice().sort((a, b) => a - b);
  const at_once_s = sorted[Math.floor(READ_AT_ONCE * sorted.length)];
  return arrivals_s.map((at_s, i) => at_s - (off_s[i] - at_once_s));
}

/**
 * How far the packet with the least delay may have been from the event that took it: to the next instant, on the grid, at which
 * another packet was ready and would have come with less delay. Packets that missed an event tell nothing.
 * @param ready_s when each packet was ready, sensor time
 * @param arrivals_s when each came, host time
 * @param least which of them came with the least delay
 */
export function gapOnGrid(ready_s: number[], arrivals_s: number[], least: number, interval_s: number): number {
  const least_s = arrivals_s[least] - ready_s[least];
  let gap = interval_s;
  for (const [i, other_s] of ready_s.entries()) {
    if (i === least || arrivals_s[i] - other_s > least_s + interval_s) continue;
    const ahead = (((other_s - ready_s[least]) % interval_s) + interval_s) % interval_s;
    // Phases that are the same but for rounding are one.
    if (ahead > SAME_S && ahead < interval_s - SAME_S) gap = Math.min(gap, ahead);
  }
  return gap;
}
