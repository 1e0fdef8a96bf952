import { type HeldPacket, type Run, runsOf } from './held-packets.ts';

/** A counter that began anew cannot be further than the time since then allows; a sensor may be up to this much faster. */
const FASTEST = 2.5;
const MARGIN_S = 0.1;

/**
 * Packets around a start that sets the counter back: the run that began with the start comes last. Before it are packets of
 * the time before: those that are further than the time since the start allows, or that a set-back follows.
 */
export function runsAfterStart(held: HeldPacket[], from_s: number, modulus: number, count_s: number): Run[] {
  const after = (one: HeldPacket) =>
    one.arrival_s >= from_s && one.counter * count_s <= FASTEST * (one.arrival_s - from_s) + MARGIN_S;
  let first = held.length;
  while (first > 0 && after(held[first - 1])) first--;
  // The counter's own beginning is the surest sign.
  const zero = held.map((one) => one.counter).lastIndexOf(0);
  if (zero > first) first = zero;
  // Nothing fits a start at zero: this sensor begins to count anew at some other number.
  if (first === held.length) return runsOf(held, modulus, count_s);
  return [
    ...(first > 0 ? runsOf(held.slice(0, first), modulus, count_s) : []),
    ...runsOf(held.slice(first), modulus, count_s),
  ];
}
