/**
 * Samples that carry their own number: whatever is stored can be traced to the sample that was sent, so that loss,
 * repetition and misplacement all show.
 */
import { defaultSettings } from '../../ingest/ble/packets/decode-packet.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../shared/schemas/stream-description.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';

/** Where a channel has 12 bits, a digit must be small. */
function digitOf(description: StreamDescription): number {
  return description.packet.sample.some(({ type }) => type.endsWith('int12')) ? 1000 : 30_000;
}
const FACTORS: Record<string, number> = { g: STANDARD_GRAVITY_MPS2, mps2: 1, dps: RADIANS_PER_DEGREE, radps: 1 };

/** SI value of one count of acceleration in this description's range. */
export function accelerationCount(description: StreamDescription, settings: StreamSettings): number {
  const range = description.acc.ranges.find((entry) => entry.full_scale === settings.acc_full_scale)!;
  return range.per_count * FACTORS[description.acc.unit];
}

/** `count` samples at the nominal rate, numbered from `first`, in block axes. */
export function numberedBlock(
  description: StreamDescription,
  count: number,
  first = 0,
  settings = defaultSettings(description),
): SampleBlock {
  const unit = accelerationCount(description, settings);
  const digit = digitOf(description);
  const make = (value: (n: number) => number) => Float64Array.from({ length: count }, (_, i) => value(first + i));
  const column = () => make((n) => (n % 100) * 0.01);
  return {
    start_utc: null,
    sampling_rate_hz: settings.rate_hz,
    time_s: make((n) => (n - first) / settings.rate_hz),
    // Low digit, high digit, and a check value that must fit both.
    acc_mps2: {
      x: make((n) => unit * (n % digit)),
      y: make((n) => unit * Math.floor(n / digit)),
      z: make((n) => unit * (n % 997)),
    },
    gyr_radps: description.gyr === null ? null : { x: column(), y: column(), z: column() },
    gaps: [],
    acc_range_mps2: null,
    gyr_range_radps: null,
  };
}

/** The numbers of stored samples. @throws when a sample holds values that were never sent together */
export function numbersOf(block: SampleBlock, description: StreamDescription, settings = defaultSettings(description)) {
  const unit = accelerationCount(description, settings);
  return Array.from(block.acc_mps2.x, (x, i) => {
    const number = Math.round(x / unit) + digitOf(description) * Math.round(block.acc_mps2.y[i] / unit);
    if (Math.round(block.acc_mps2.z[i] / unit) !== number % 997) throw new Error(`sample ${i} mixes two samples`);
    return number;
  });
}

export interface Account {
  sent: number;
  stored: number;
  repeated: number;
  /** Sent, not stored, and not inside a reported gap. */
  unaccounted: number;
  /** Greatest |stored time - the sensor's own time|, seconds, after taking off the common start. */
  worst_time_error_s: number;
}

/**
 * Holds a stored block against what was sent.
 * @param sensor_time the sensor's own time of sample n, seconds
 */
export function account(
  block: SampleBlock,
  description: StreamDescription,
  sent: Iterable<number>,
  sensor_time: (n: number) => number,
  settings = defaultSettings(description),
): Account {
  const numbers = numbersOf(block, description, settings);
  const stored = new Set(numbers);
  const start_s = sensor_time(numbers[0]);
  let worst = 0;
  numbers.forEach((n, i) => {
    worst = Math.max(worst, Math.abs(block.time_s[i] - (sensor_time(n) - start_s)));
  });
  let [count, unaccounted] = [0, 0];
  for (const n of sent) {
    count++;
    if (stored.has(n)) continue;
    const at_s = sensor_time(n) - start_s;
    if (!block.gaps.some((gap) => at_s > gap.start_s - 1e-3 && at_s < gap.end_s + 1e-3)) unaccounted++;
  }
  return {
    sent: count,
    stored: numbers.length,
    repeated: numbers.length - stored.size,
    unaccounted,
    worst_time_error_s: worst,
  };
}
