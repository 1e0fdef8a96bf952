import { analyse } from '../../dsp/analyse.ts';
import { LayoutQuestion } from '../../ingest/csv/columns/layout-question.ts';
import { lookAtFile, unpackedBeginning } from '../../ingest/csv/look-at-file.ts';
import { type CsvRecording, readCsvRecording } from '../../ingest/csv/read-csv-recording.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import { FaultError } from '../../shared/fault.ts';
import type { AxisColumns, SensorRecording } from '../../shared/sample-block.ts';
import type { Layout, LayoutCorrection } from '../../shared/schemas/layout.ts';
import type { LayoutPreview, PreviewSensor } from '../../shared/schemas/layout-preview.ts';
import type { Mounting, Side } from '../../shared/words.ts';
import { checkReading } from './check-reading.ts';

export interface PreviewRequest {
  file_name: string;
  /** The beginning of the file, or all of it. */
  bytes: Uint8Array;
  /** True where the file goes on. */
  part: boolean;
  side: Side | null;
  mounting: Mounting;
  rate_hz: number | null;
  layout: LayoutCorrection | null;
}

/** Points of the picture of a signal. */
const PICTURE_POINTS = 300;
/** More samples than this are not needed to see whether a file was read rightly. */
const MOST_SAMPLES = 40_000;

/**
 * Reads the beginning of a file as a layout says, or as is found, and shows what comes out. Refusals are part of the answer.
 * @throws FaultError for what is no text
 */
export async function previewLayout(request: PreviewRequest, saved: Layout[]): Promise<LayoutPreview> {
  const { file_name, layout } = request;
  const bytes = request.part ? toLastLine(await unpackedBeginning(request.bytes, file_name)) : request.bytes;
  try {
    const read = await readCsvRecording(bytes, {
      file_name,
      layout,
      saved_layouts: saved,
      rate_hz: request.rate_hz ?? undefined,
      side: request.side ?? undefined,
    });
    const look = await lookAtFile(bytes, file_name, layout?.text ?? read.layout.text);
    return {
      ...look,
      ...understood(read),
      sensors: read.recordings.map((one) => sensorOf(one, request.mounting)),
      fault: null,
      choices: [],
    };
  } catch (error) {
    if (!(error instanceof FaultError)) throw error;
    const look = await lookAtFile(bytes, file_name, layout?.text);
    return {
      ...look,
      layout: null,
      saved_layout: null,
      evidence: [],
      fault: error.toFault(),
      choices: error instanceof LayoutQuestion ? error.choices : [],
      sensors: [],
      faults: [],
      rows: 0,
      rejected_count: 0,
    };
  }
}

function understood({ layout, evidence, faults, rows, rejected_count }: CsvRecording) {
  const saved = evidence.find(({ about }) => about === 'layout');
  return {
    layout,
    saved_layout: saved ? layout.name : null,
    evidence,
    faults,
    rows,
    rejected_count,
  };
}

function sensorOf({ side, samples: all }: CsvRecording['recordings'][number], mounting: Mounting): PreviewSensor {
  const end = Math.min(all.time_s.length, MOST_SAMPLES);
  const cut = (axes: AxisColumns): AxisColumns => ({
    x: axes.x.subarray(0, end),
    y: axes.y.subarray(0, end),
    z: axes.z.subarray(0, end),
  });
  const last = all.time_s[end - 1] ?? 0;
  const samples = {
    ...all,
    time_s: all.time_s.subarray(0, end),
    acc_mps2: cut(all.acc_mps2),
    gyr_radps: all.gyr_radps && cut(all.gyr_radps),
    gaps: all.gaps.filter((gap) => gap.end_s <= last),
  };
  const recording: SensorRecording = {
    side,
    mounting,
    samples,
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
  };
  const analysis = analyse({ sensors: [recording], course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
  return {
    side,
    checks: checkReading(recording, analysis),
    duration_s: last,
    acc_mps2: picture(samples.time_s, samples.acc_mps2),
    gyr_radps: samples.gyr_radps ? picture(samples.time_s, samples.gyr_radps) : [],
  };
}

/** Greatest norm in each of equal parts of the time. */
function picture(time_s: Float64Array, { x, y, z }: AxisColumns): (number | null)[] {
  const last = time_s[time_s.length - 1] || 1;
  const points: (number | null)[] = new Array(PICTURE_POINTS).fill(null);
  for (let i = 0; i < time_s.length; i++) {
    const norm = Math.hypot(x[i], y[i], z[i]);
    const at = Math.min(PICTURE_POINTS - 1, Math.floor((time_s[i] / last) * PICTURE_POINTS));
    if (!Number.isNaN(norm) && norm > (points[at] ?? -1)) points[at] = norm;
  }
  return points;
}

/** A part of a file breaks off in the middle of a row, which says nothing about the file. */
function toLastLine(bytes: Uint8Array): Uint8Array {
  const end = bytes.lastIndexOf(10);
  // In UTF-16 little endian a zero follows the line's end.
  return end < 0 ? bytes : bytes.subarray(0, bytes[end + 1] === 0 ? end + 2 : end + 1);
}
