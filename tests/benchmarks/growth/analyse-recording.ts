import { analyseSources } from '../../../api/measuring/analyse-sources.ts';
import { describeRecording } from '../../../api/store/chunks.ts';
import type { Channel } from '../../../api/store/channels.ts';
import { columnOf } from '../../../api/store/channels.ts';
import type { SampleSource } from '../../../api/store/sample-source.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { measured } from './measured.ts';

const RATE_HZ = 500;
const EVERY_S = 30;
/** How far apart the times lie that are known without reading. */
const SPARSE = 16_384;

/** @param seconds of two feet: standing, and the same sprint again and again; made as it is asked for, never whole in memory */
export function measure(seconds: number) {
  const { foot } = generateRepetition({
    seed: 3,
    mountings: ['foot'],
    repetitions: [{ effort: 1, distance_m: 40 }],
    sensor: { rate_hz: RATE_HZ },
  }).sensors;
  const sources = (['left', 'right'] as const).map((side) => sourceOf(side, foot[side], seconds * RATE_HZ));
  return measured(() =>
    analyseSources(sources, UNKNOWN_COURSE, UNKNOWN_CONDITIONS, undefined, { onRepetition: () => {} }),
  );
}

function sourceOf(side: 'left' | 'right', run: SampleBlock, samples: number): SampleSource {
  const place = { side, mounting: 'foot', clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 } as const;
  const period = EVERY_S * RATE_HZ;
  const columns = new Map<Channel, Float64Array>();
  const known = (channel: Channel) => {
    const present = columns.get(channel) ?? columnOf(run, channel);
    columns.set(channel, present);
    return present;
  };
  const read = (channel: Channel, first: number, end: number): Float64Array => {
    if (channel === 'time_s') return Float64Array.from({ length: end - first }, (_, i) => (first + i) / RATE_HZ);
    const column = known(channel);
    // Before and after the sprint the sensor lies as it did at its first samples.
    return Float64Array.from({ length: end - first }, (_, i) => {
      const at = (first + i) % period;
      return column[at < column.length ? at : at % 200];
    });
  };
  const times = Float64Array.from({ length: Math.ceil(samples / SPARSE) }, (_, k) => (k * SPARSE) / RATE_HZ);
  return {
    ...describeRecording({ ...place, samples: run }),
    samples,
    duration_s: (samples - 1) / RATE_HZ,
    gaps: [],
    clock_start_s: null,
    columns: { read, sparse_times: { every: SPARSE, times } },
  };
}
