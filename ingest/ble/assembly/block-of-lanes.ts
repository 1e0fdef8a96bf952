import type { AxisColumns, Gap, SampleBlock } from '../../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { fullScales } from '../packets/decode-packet.ts';
import type { StreamLane } from './stream-lane.ts';

/**
 * One block of all kinds of packet. The first lane, which carries the acceleration, gives the times; the samples of the others
 * are put on these by their own times, and are missing (NaN) where their packets were lost.
 * @param slots of the first lane
 * @param times of these slots, sensor time
 */
export function blockOf(
  description: StreamDescription,
  settings: StreamSettings,
  lanes: StreamLane[],
  slots: Float64Array,
  times: Float64Array,
): SampleBlock {
  const [main, ...others] = lanes;
  const first_s = times[0];
  const time_s = times.map((time) => time - first_s);
  // Where a sensor began anew, its new time is only known from arrival; the column must rise all the same.
  const least_step_s = 0.01 / main.rate_hz;
  for (let i = 1; i < time_s.length; i++) time_s[i] = Math.max(time_s[i], time_s[i - 1] + least_step_s);
  const gaps = gapsOf(slots, time_s);
  const columns = new Map<number, Float64Array>();
  main.carries.forEach((channel, at) => {
    columns.set(channel, main.slots.column(at, slots));
  });
  for (const lane of others) {
    const shift_s = main.sequence.stampShift() - lane.sequence.stampShift();
    const margin_s = 4 / lane.rate_hz;
    const cut = lane.cut(first_s - shift_s - margin_s, times[times.length - 1] - shift_s + margin_s);
    const own_s = cut.times.map((time) => time + shift_s - first_s);
    lane.carries.forEach((channel, at) => {
      columns.set(channel, ontoTimes(time_s, own_s, cut.slots, lane.slots.column(at, cut.slots)));
    });
    gaps.push(...gapsOf(cut.slots, own_s).filter((gap) => gap.end_s > 0 && gap.start_s < time_s[time_s.length - 1]));
  }
  const axes = (from: number): AxisColumns => {
    const column = (channel: number) => columns.get(channel) ?? new Float64Array(time_s.length).fill(Number.NaN);
    return { x: column(from), y: column(from + 1), z: column(from + 2) };
  };
  const span_slots = slots[slots.length - 1] - slots[0];
  const span_s = time_s[time_s.length - 1];
  return {
    start_utc: null,
    sampling_rate_hz: span_s > 0 ? span_slots / span_s : settings.rate_hz,
    time_s,
    acc_mps2: axes(0),
    gyr_radps: description.gyr === null ? null : axes(3),
    gaps: gaps.sort((a, b) => a.start_s - b.start_s),
    ...fullScales(description, settings),
  };
}

function gapsOf(slots: Float64Array, time_s: Float64Array): Gap[] {
  const gaps: Gap[] = [];
  for (let i = 1; i < slots.length; i++) {
    const missing = slots[i] - slots[i - 1] - 1;
    if (missing > 0) gaps.push({ start_s: Math.max(0, time_s[i - 1]), end_s: time_s[i], lost_samples: missing });
  }
  return gaps;
}

/**
 * Values at other times: a cubic through the two samples on either side, a straight line where one of the outer ones is missing,
 * nothing (NaN) where the samples about an instant are not neighbours.
 */
function ontoTimes(at_s: Float64Array, own_s: Float64Array, slots: Float64Array, values: Float64Array): Float64Array {
  const follows = (i: number) => i >= 0 && i + 1 < slots.length && slots[i + 1] === slots[i] + 1;
  let i = 0;
  return at_s.map((time) => {
    while (i + 2 < own_s.length && own_s[i + 1] <= time) i++;
    const part = (time - own_s[i]) / (own_s[i + 1] - own_s[i]);
    // An instant that is a sample's own, but for rounding, needs no neighbour.
    if (Math.abs(part) < 1e-3) return values[i];
    if (Math.abs(part - 1) < 1e-3) return values[i + 1];
    if (!follows(i) || part < 0 || part > 1) return Number.NaN;
    const [b, c] = [values[i], values[i + 1]];
    if (!follows(i - 1) || !follows(i + 1)) return b + part * (c - b);
    const [a, d] = [values[i - 1], values[i + 2]];
    return b + 0.5 * part * (c - a + part * (2 * a - 5 * b + 4 * c - d + part * (3 * (b - c) + d - a)));
  });
}
