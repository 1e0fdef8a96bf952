import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import type { PacketRecord } from '../../../shared/packet-record.ts';
import type { PacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { SampleBlock, SensorRecording } from '../../../shared/sample-block.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { readRecording } from '../../store/read-samples.ts';
import { listRecordings } from '../../store/recordings.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';

/** Standing between two repetitions of a replay, seconds: shorter than at the track. */
const PAUSE_S = 3;

export interface ReplayPlan {
  logs: PacketLog[];
  athlete_id: number;
  /** Repetitions in the order they are played. */
  repetition_ids: number[];
}

/**
 * Turns a stored session into the packets that its sensors would have sent: one athlete's repetitions, one after the other.
 * @param base the packet layout to send them in
 * @throws FaultError CAPTURE_STATE when the session holds nothing that can be played
 */
export function planReplay(store: Store, session_id: number, base: StreamDescription, athlete_id?: number): ReplayPlan {
  const recorded = listRepetitions(store, { session_id, athlete_id, state: 'analysed' });
  const first = recorded[0];
  if (first === undefined) {
    throw new FaultError(fault('CAPTURE_STATE.nothing_to_play', { session_id }, { session_id }));
  }
  const repetitions = recorded.filter((line) => line.athlete_id === first.athlete_id);
  const parts = new Map<string, PlacedRecording[]>();
  const played = new Set<number>();
  let end_s = 0;
  for (const { repetition_id } of repetitions) {
    const begin_s = end_s + PAUSE_S;
    for (const { recording_id } of listRecordings(store, repetition_id)) {
      if (played.has(recording_id)) continue;
      played.add(recording_id);
      const recording = readRecording(store, recording_id);
      const from_s = begin_s + recording.clock_offset_s;
      parts.set(recording.side, [...(parts.get(recording.side) ?? []), { recording, from_s }]);
      end_s = Math.max(end_s, from_s + (recording.samples.time_s.at(-1) ?? 0));
    }
  }
  const logs = [...parts].map(([side, placed]) => sideLog(base, side, placed, end_s + PAUSE_S));
  return { logs, athlete_id: first.athlete_id, repetition_ids: repetitions.map((line) => line.repetition_id) };
}

interface PlacedRecording {
  recording: SensorRecording;
  /** When its first sample comes, on the replay's clock. */
  from_s: number;
}

function sideLog(base: StreamDescription, side: string, placed: PlacedRecording[], total_s: number): PacketLog {
  const [{ recording }] = placed;
  const { description, settings } = fittedTo(base, placed);
  const header = {
    format: 'packet-log/1' as const,
    sensor_id: `replay-${side}`,
    sensor_name: `Replay ${side}`,
    side: recording.side,
    mounting: recording.mounting,
    description,
    settings,
  };
  const gaps = placed.flatMap(({ recording: { samples }, from_s }) =>
    samples.gaps.map((gap) => ({ from_s: gap.start_s + from_s, to_s: gap.end_s + from_s })),
  );
  const records = encodePackets(description, settings, onOneGrid(placed, settings.rate_hz, total_s)).flatMap(
    ({ bytes, first_sample, samples }): PacketRecord[] => {
      const start_s = first_sample / settings.rate_hz;
      const arrival_s = start_s + samples / settings.rate_hz;
      const lost = gaps.some((gap) => start_s < gap.to_s && arrival_s > gap.from_s);
      return lost ? [] : [{ kind: 'packet', arrival_s, bytes }];
    },
  );
  return { header, records, good_bytes: 0, damaged: [] };
}

/**
 * The base description as if its sensor had the recording's own rate and ranges, with sixteen bits over each range: a replay
 * must not clip or thin what was measured.
 */
function fittedTo(
  base: StreamDescription,
  placed: PlacedRecording[],
): { description: StreamDescription; settings: StreamSettings } {
  const blocks = placed.map(({ recording }) => recording.samples);
  const rate_hz = Math.round(blocks[0].sampling_rate_hz);
  const acc_full_scale =
    fullScale(blocks.map((block) => [block.acc_range_mps2, block.acc_mps2])) / STANDARD_GRAVITY_MPS2;
  const gyr_full_scale =
    fullScale(blocks.map((block) => [block.gyr_range_radps, block.gyr_radps])) / RADIANS_PER_DEGREE;
  const has_gyroscope = blocks.every((block) => block.gyr_radps !== null);
  const range = (full_scale: number) => [{ full_scale, per_count: full_scale / 32768, writes: [] }];
  const description: StreamDescription = {
    ...base,
    id: `${base.id}-replay`,
    packet: {
      ...base.packet,
      sample: base.packet.sample.filter(({ channel }) => has_gyroscope || !channel.startsWith('gyr')),
    },
    acc: { ...base.acc, unit: 'g', ranges: range(acc_full_scale) },
    gyr: has_gyroscope && base.gyr ? { ...base.gyr, unit: 'dps', ranges: range(gyr_full_scale) } : null,
    rates: [{ rate_hz, writes: [] }],
  };
  return {
    description,
    settings: { rate_hz, acc_full_scale, gyr_full_scale: has_gyroscope ? gyr_full_scale : null },
  };
}

/** The stated ranges' largest; where one is not known, a little above the largest value. */
function fullScale(parts: [number | null, SampleBlock['gyr_radps']][]): number {
  return Math.max(1, ...parts.map(([range, columns]) => range ?? 1.05 * greatest(columns)));
}

function greatest(columns: SampleBlock['gyr_radps']): number {
  let most = 0;
  for (const column of columns === null ? [] : [columns.x, columns.y, columns.z]) {
    for (const value of column) if (Math.abs(value) > most) most = Math.abs(value);
  }
  return most;
}

/**
 * All recordings of one side on one even grid: straight lines between their samples (good enough to send, at the rates
 * that sensors have), and in the pauses the value that came last, as of somebody who stands still.
 */
function onOneGrid(placed: PlacedRecording[], rate_hz: number, total_s: number): SampleBlock {
  const count = Math.floor(total_s * rate_hz);
  const [{ recording }] = placed;
  const axes = (pick: (block: SampleBlock) => Record<'x' | 'y' | 'z', Float64Array> | null) => {
    const column = (axis: 'x' | 'y' | 'z') => {
      const out = new Float64Array(count);
      for (const [
        n,
        {
          recording: { samples },
          from_s,
        },
      ] of placed.entries()) {
        const values = pick(samples)?.[axis];
        if (values) fill(out, n === 0 ? 0 : Math.ceil(from_s * rate_hz), rate_hz, from_s, samples.time_s, values);
      }
      return out;
    };
    return { x: column('x'), y: column('y'), z: column('z') };
  };
  return {
    ...recording.samples,
    sampling_rate_hz: rate_hz,
    time_s: Float64Array.from({ length: count }, (_, k) => k / rate_hz),
    acc_mps2: axes((block) => block.acc_mps2),
    gyr_radps: axes((block) => block.gyr_radps),
    gaps: [],
  };
}

/** Writes one recording's column from a slot on; its last value is held to the end, its first one before its start. */
function fill(
  out: Float64Array,
  first: number,
  rate_hz: number,
  from_s: number,
  time: Float64Array,
  values: Float64Array,
): void {
  let i = 0;
  for (let k = first; k < out.length; k++) {
    const t = Math.min(Math.max(k / rate_hz - from_s, 0), time[time.length - 1]);
    while (i + 2 < time.length && time[i + 1] <= t) i++;
    const part = (t - time[i]) / (time[i + 1] - time[i]);
    out[k] = (values[i] || 0) * (1 - part) + (values[i + 1] || 0) * part;
  }
}
