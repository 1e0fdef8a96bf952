import type { DecodedPacket } from '../packets/decode-packet.ts';

export interface HeldPacket {
  packet: DecodedPacket;
  arrival_s: number;
  counter: number;
  /** Of its first sample, and as it was sent; null where the sensor sends none. */
  stamp_s: number | null;
  sent_stamp_s: number | null;
}

/** Packets whose counters follow one another. */
export interface Run {
  packets: HeldPacket[];
  /** Counts from the run's first packet, one a packet. */
  counts: number[];
}

/** A backlog has drained when the least delay of a window no longer falls; length of a window, seconds. */
const WINDOW_S = 0.25;
/** Steps back, in seconds, that only change the order of packets. */
const REORDER_S = 0.25;
/** Steps ahead, in seconds, that are a loss and not another run. */
const LOSS_S = 1;

/** Part of the counter's wrap after which silence makes the number of wraps a question. */
export const SILENCE_PART = 0.4;

/** Parts packets, in the order of their arrival, where their counters do not go on, or not surely. */
export function runsOf(held: HeldPacket[], modulus: number, count_s: number): Run[] {
  const ahead = Math.min(modulus / 4, Math.max(8, LOSS_S / count_s));
  const back = Math.min(modulus / 8, Math.max(4, REORDER_S / count_s));
  const runs: Run[] = [];
  for (const one of held) {
    const run = runs.at(-1);
    const before = run?.packets[run.packets.length - 1];
    const step = before === undefined ? 0 : signedStep(before.counter, one.counter, modulus);
    const silent = before !== undefined && one.arrival_s - before.arrival_s > SILENCE_PART * modulus * count_s;
    if (run === undefined || silent || step > ahead || step < -back) runs.push({ packets: [one], counts: [0] });
    else {
      run.packets.push(one);
      run.counts.push(run.counts[run.counts.length - 1] + step);
    }
  }
  return runs;
}

/** From one counter to the next, the short way round. */
export function signedStep(from: number, to: number, modulus: number): number {
  const step = to - from;
  return Number.isFinite(modulus) ? step - Math.round(step / modulus) * modulus : step;
}

/** Least arrival time of a run's first packet, had no packet of the run been late. */
export function leastArrival(run: Run, count_s: number): number {
  return run.packets.reduce(
    (least, { arrival_s }, i) => Math.min(least, arrival_s - run.counts[i] * count_s),
    Infinity,
  );
}

/**
 * Whether what had piled up behind a stall has come: packets arrive at their natural pace again.
 * @param wrap_s time in which the counter wraps; infinite where it does not
 */
export function hasDrained(run: Run, count_s: number, wrap_s: number): boolean {
  const window_s = Math.max(WINDOW_S, 3 * count_s);
  const now_s = run.packets[run.packets.length - 1].arrival_s;
  let [earlier, later, since_s] = [Infinity, Infinity, now_s];
  run.packets.forEach(({ arrival_s }, i) => {
    const late = arrival_s - run.counts[i] * count_s;
    if (arrival_s > now_s - window_s) {
      later = Math.min(later, late);
      since_s = Math.min(since_s, arrival_s);
    } else if (arrival_s > now_s - 2 * window_s) earlier = Math.min(earlier, late);
  });
  // A single packet after another silence tells nothing of the pace.
  if (now_s - since_s < window_s / 2) return false;
  return Number.isFinite(earlier) && later > earlier - Math.max(0.02, Math.min(wrap_s, 1) / 16);
}
