import type { AxisColumns, SampleBlock } from '../../../shared/sample-block.ts';
import { uniform } from '../../helpers/random.ts';
import { makePair, type PairOptions } from './make-pair.ts';

const REST_S = 0.8;

/** Two runs of one athlete with a rest of so many seconds between them. */
export function pairWithRest(options: PairOptions, rest_s: number) {
  const pair = makePair({ runs: 2, ...options });
  const at_s = quietBetween(pair.left, pair.run_s[0], pair.run_s[1]);
  const { right_starts_s, right_drift = 0 } = options;
  return {
    left: withPause(pair.left, at_s, rest_s),
    right: withPause(pair.right, (at_s - right_starts_s) * (1 + right_drift), rest_s * (1 + right_drift)),
    /** Instants in the first and in the second run, seconds of world time. */
    instants_s: [pair.run_s[0] + 2, pair.run_s[1] + rest_s - 1],
  };
}

/** A recording in which the sensor rests for `pause_s` of its own clock at `at_s`: rows of the rest before, in any order. */
function withPause(block: SampleBlock, at_s: number, pause_s: number): SampleBlock {
  const { time_s, sampling_rate_hz } = block;
  const at = time_s.findIndex((t) => t >= at_s);
  const resting = Math.round(REST_S * sampling_rate_hz);
  const added = Math.round(pause_s * sampling_rate_hz);
  const random = uniform(7);
  const rows = Array.from({ length: added }, () => at - 1 - Math.floor(random() * resting));
  const column = (values: Float64Array) =>
    Float64Array.from([...values.subarray(0, at), ...rows.map((row) => values[row]), ...values.subarray(at)]);
  const axes = ({ x, y, z }: AxisColumns) => ({ x: column(x), y: column(y), z: column(z) });
  return {
    ...block,
    time_s: Float64Array.from([
      ...time_s.subarray(0, at),
      ...rows.map((_, i) => time_s[at] + (i * pause_s) / added),
      ...time_s.subarray(at).map((t) => t + pause_s),
    ]),
    acc_mps2: axes(block.acc_mps2),
    gyr_radps: block.gyr_radps && axes(block.gyr_radps),
  };
}

/** The middle of the longest stretch in which the foot hardly turns. */
function quietBetween({ time_s, gyr_radps }: SampleBlock, from_s: number, to_s: number): number {
  let longest = [0, 0];
  let since: number | null = null;
  const { x, y, z } = gyr_radps!;
  for (const [i, t] of time_s.entries()) {
    const quiet = t > from_s && t < to_s && Math.hypot(x[i], y[i], z[i]) < 0.5;
    if (quiet) since ??= t;
    else if (since !== null) {
      if (t - since > longest[1] - longest[0]) longest = [since, t];
      since = null;
    }
  }
  return (longest[0] + longest[1]) / 2;
}
