import type { CaptureDetail } from '../../../shared/schemas/captures.ts';
import type { LogToRead } from '../results/window-of-log.ts';
import { readThrough } from './read-through.ts';

const COLUMNS = ['time_s', 'acc_x_mps2', 'acc_y_mps2', 'acc_z_mps2', 'gyr_x_radps', 'gyr_y_radps', 'gyr_z_radps'];

/** Reads a packet log through and says what it holds. */
export async function summarise(log: LogToRead): Promise<CaptureDetail['logs'][number]> {
  const { header } = log;
  let [gaps, slots] = [0, 0];
  // Sensor time of the log's first sample and of the latest one so far.
  let [begin_s, end_s] = [Number.NaN, Number.NaN];
  const stretches = readThrough(log);
  for (;;) {
    const { value, done } = await stretches.next();
    if (done) {
      const empty = Number.isNaN(begin_s);
      const duration_s = empty ? 0 : end_s - begin_s;
      return {
        sensor_id: header.sensor_id,
        description_id: header.description.id,
        duration_s,
        rate_hz: empty ? null : duration_s > 0 ? slots / duration_s : header.settings.rate_hz,
        gaps,
        damaged_bytes: value.damaged_bytes,
        ...value.counts,
      };
    }
    const { block, first_s } = value;
    const last_s = first_s + block.time_s[block.time_s.length - 1];
    slots += Math.round((last_s - first_s) * block.sampling_rate_hz);
    gaps += block.gaps.length;
    if (Number.isNaN(begin_s)) begin_s = first_s;
    else {
      // From the last sample of a stretch to the first of the next is one slot, or a gap.
      const between = Math.max(1, Math.round((first_s - end_s) * block.sampling_rate_hz));
      slots += between;
      if (between > 1) gaps++;
    }
    end_s = last_s;
  }
}

/** A packet log's samples as a file, a part at a time: seconds from the first sample, m/s2, rad/s. */
export async function* samplesCsv(log: LogToRead): AsyncGenerator<string> {
  const wanted = log.header.description.gyr === null ? 4 : 7;
  yield `${COLUMNS.slice(0, wanted).join(',')}\n`;
  let zero_s: number | null = null;
  for await (const { block, first_s } of readThrough(log)) {
    zero_s ??= first_s;
    const { acc_mps2, gyr_radps } = block;
    const offset_s = first_s - zero_s;
    const columns = [block.time_s.map((time_s) => time_s + offset_s), acc_mps2.x, acc_mps2.y, acc_mps2.z];
    if (gyr_radps) columns.push(gyr_radps.x, gyr_radps.y, gyr_radps.z);
    let lines = '';
    for (let i = 0; i < block.time_s.length; i++) {
      lines += `${columns.map((column) => (Number.isFinite(column[i]) ? String(column[i]) : '')).join(',')}\n`;
    }
    yield lines;
  }
}
