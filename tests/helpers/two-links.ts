/**
 * Sensors on links and clocks of their own: packets wait for the connection event, some miss it, some are lost, the host reads late. Truth
 * is chosen, so the error of what arrivals and steps tell is known.
 */
import { clockOf } from '../../ingest/ble/assembly/arrival-clock.ts';
import { alignStreams } from '../../ingest/ble/assembly/align-streams.ts';
import { refineByFeet } from '../../ingest/ble/assembly/refine-by-feet.ts';
import { StreamAssembler } from '../../ingest/ble/assembly/stream-assembler.ts';
import { defaultSettings } from '../../ingest/ble/packets/decode-packet.ts';
import { encodePackets } from '../../ingest/ble/packets/encode-packets.ts';
import { packetStreams } from '../../shared/packet-streams.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../shared/schemas/stream-description.ts';
import { commonTime } from '../../shared/sensor-clock.ts';
import { numberedBlock, numbersOf } from './numbered-samples.ts';
import { uniform } from './random.ts';
import { runningPackets } from './running-packets.ts';

const INTERVALS_S = [7.5e-3, 11.25e-3, 15e-3, 30e-3, 48.75e-3];

export interface OneFoot {
  /** Host time that the clock gives a sample in the middle, minus the true one, seconds. */
  error_s: number;
  u_s: number;
  interval_s: number;
  found_interval_s: number | null;
}

interface Played {
  assembler: StreamAssembler;
  /** Host time of the block's sample `n`. */
  truth: (n: number) => number;
  interval_s: number;
}

/** A block sent over a link of its own, by a clock of its own. */
function played(
  description: StreamDescription,
  settings: StreamSettings,
  block: SampleBlock,
  at_s: number,
  random: () => number,
): Played {
  const { rate_hz } = settings;
  const drift = (2 * random() - 1) * Math.min(50e-6, description.rate_tolerance / 2);
  const interval_s = INTERVALS_S[Math.floor(random() * INTERVALS_S.length)];
  const phase_s = random() * interval_s;
  const jitter_s = 0.004 * random();
  const [stream] = packetStreams(description);
  const truth = (n: number) => at_s + n / rate_hz / (1 + drift);
  const assembler = new StreamAssembler(description, settings);
  let read_s = 0;
  for (const { bytes, first_sample, samples } of encodePackets(description, settings, block, { stream })) {
    const ready_s = truth(first_sample + samples - 1);
    if (random() < 0.02 && first_sample > 0) continue;
    // One packet in twenty misses its event, as radios do.
    const missed = random() < 0.05 ? 1 : 0;
    const event_s = (Math.ceil((ready_s - phase_s) / interval_s) + missed) * interval_s + phase_s;
    read_s = Math.max(read_s + 1e-5, event_s + jitter_s * random() ** 3);
    assembler.add(bytes, read_s, 0);
  }
  assembler.finish();
  return { assembler, truth, interval_s };
}

/** One sensor, recorded for some seconds. */
export function recordedFoot(description: StreamDescription, length_s: number, random: () => number): OneFoot {
  const settings = defaultSettings(description);
  const block = numberedBlock(description, Math.round(length_s * settings.rate_hz), 0, settings);
  const { assembler, truth, interval_s } = played(description, settings, block, 5000 + random(), random);
  const fit = assembler.clockFit()!;
  const made = assembler.block()!;
  const middle = made.block.time_s.length >> 1;
  const n = numbersOf(made.block, description, settings)[middle];
  const error_s = commonTime(made.first_s + made.block.time_s[middle], clockOf(fit)) - truth(n);
  return { error_s, u_s: fit.offset_u_s, interval_s, found_interval_s: fit.interval_s };
}

/** A simulated sprint over two links: error between the feet in the middle, and what is said of it. */
export function sprintOnTwoLinks(
  description: StreamDescription,
  seed: number,
): { error_s: number; u_s: number; by_arrival_u_s: number } {
  const random = uniform(seed);
  const settings = defaultSettings(description);
  const { blocks } = runningPackets(description, settings, {
    seed,
    repetitions: [{ distance_m: 30, effort: 0.95, run_out_s: 0.5 }],
    stand_before_s: 4,
  });
  const feet = (['left', 'right'] as const).map((side) => {
    // The first sample of both is of one instant; links and clocks are their own.
    const { assembler, truth } = played(description, settings, blocks[side], 5000, random);
    return { side, mounting: 'foot' as const, assembler, truth };
  });
  const by_arrival = alignStreams(feet)!.sensors;
  const sensors = refineByFeet(by_arrival);
  const errors = sensors.map((sensor) => {
    const { side, samples } = sensor;
    const middle = samples.time_s.length >> 1;
    const { assembler, truth } = feet.find((foot) => foot.side === side)!;
    // Samples before the first packet that came are not there.
    const before = assembler.extent.end - samples.time_s.length - assembler.counts.lost_samples - 8192;
    const n = Math.round(samples.time_s[middle] * settings.rate_hz) + Math.max(0, before);
    return commonTime(samples.time_s[middle], sensor) - truth(n);
  });
  const between = (pair: typeof sensors) => Math.hypot(...pair.map((sensor) => sensor.clock_offset_u_s));
  return { error_s: errors[1] - errors[0], u_s: between(sensors), by_arrival_u_s: between(by_arrival) };
}
