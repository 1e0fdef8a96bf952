import { commonTime, ownTime } from '../../shared/sensor-clock.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import { firstAtOrAfter } from '../../shared/first-at-or-after.ts';
import type { Gap } from '../../shared/sample-block.ts';
import { SIGNAL_COLUMNS, type SignalHeader } from '../../shared/signal-wire.ts';
import { readChannel } from '../store/read-samples.ts';
import { listRecordings } from '../store/recordings.ts';
import type { Store } from '../store/store.ts';
import { breakAtGaps, thinColumns } from './thin-signal.ts';

export interface WindowQuestion {
  side: string;
  /** Seconds on the common clock; the whole recording without them. */
  from_s?: number;
  to_s?: number;
  max_points?: number;
}

const DEFAULT_POINTS = 4000;

/**
 * One side's raw signal of a repetition over a window, thinned to what a screen shows.
 * @throws FaultError RECORDING_NOT_FOUND where that side was not recorded
 */
export function readSignal(
  store: Store,
  repetitionId: number,
  window: WindowQuestion,
): { header: SignalHeader; columns: Float32Array[] } {
  const recording = listRecordings(store, repetitionId).find((candidate) => candidate.side === window.side);
  if (!recording) {
    throw new FaultError(
      fault(
        'RECORDING_NOT_FOUND.of_side',
        { repetition_id: repetitionId, side: window.side },
        { repetition_id: repetitionId, side: window.side },
      ),
    );
  }
  const id = recording.recording_id;
  const samples = recording.samples ?? 0;
  const toCommon = (time: number) => commonTime(time, recording);
  const time = readChannel(store, id, 'time_s', 0, samples);
  const [start_s, end_s] = [toCommon(0), toCommon(time.at(-1) ?? 0)];
  const first = firstAtOrAfter(time, ownTime(window.from_s ?? start_s, recording));
  const end = firstAtOrAfter(time, ownTime(window.to_s ?? end_s, recording) + 1e-9);
  const axes = (['x', 'y', 'z'] as const).map((axis) => readChannel(store, id, `acc_${axis}`, first, end));
  const turns = recording.has_gyroscope
    ? (['x', 'y', 'z'] as const).map((axis) => readChannel(store, id, `gyr_${axis}`, first, end))
    : null;
  const columns = [time.slice(first, end), ...axes, norm(axes), ...(turns ?? [])];
  const row = store.first(
    store.query
      .selectFrom('recordings')
      .select(['gaps', 'acc_range_mps2', 'gyr_range_radps'])
      .where('recording_id', '=', id),
  );
  const broken = breakAtGaps(columns, JSON.parse(row?.gaps ?? '[]') as Gap[]);
  const maxPoints = window.max_points ?? DEFAULT_POINTS;
  const thinned = thinColumns(broken, maxPoints);
  const zero = thinned[0].length > 0 ? toCommon(thinned[0][0]) : start_s;
  return {
    header: {
      side: recording.side,
      count: thinned[0].length,
      columns: SIGNAL_COLUMNS.slice(0, columns.length),
      origin_s: zero,
      thinned: thinned !== broken,
      recording_from_s: start_s,
      recording_to_s: end_s,
      sampling_rate_hz: recording.sampling_rate_hz ?? 0,
      acc_range_mps2: row?.acc_range_mps2 ?? null,
      gyr_range_radps: row?.gyr_range_radps ?? null,
    },
    columns: thinned.map((column, c) =>
      Float32Array.from(column, (value) => (c === 0 ? toCommon(value) - zero : value)),
    ),
  };
}

function norm([x, y, z]: Float64Array[]): Float64Array {
  return x.map((value, i) => Math.hypot(value, y[i], z[i]));
}
