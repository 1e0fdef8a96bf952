/**
 * How a window of one sensor's signal travels to the view: little-endian throughout.
 *
 *   bytes 0..3          length of the header in bytes (uint32), padded with blanks so that the columns lie at a multiple of 4
 *   then                header: JSON, UTF-8 (`SignalHeader`)
 *   then                each column of `header.columns`, `header.count` Float32 values, one column after the other
 *
 * The first column is `time_s`: seconds after `header.origin_s` on the common clock of the analysis, the one that
 * `touchdown_s` is told on. A missing sample is NaN; at a gap one row of NaN stands between its two sides. Where the
 * window holds more samples than were asked for, `thinned` is true and rows come in pairs: the least and the greatest
 * value of every column within one stretch of time, so that no peak is lost.
 */

export const SIGNAL_COLUMNS = [
  'time_s',
  'acc_x_mps2',
  'acc_y_mps2',
  'acc_z_mps2',
  'acc_norm_mps2',
  'gyr_x_radps',
  'gyr_y_radps',
  'gyr_z_radps',
] as const;
export type SignalColumn = (typeof SIGNAL_COLUMNS)[number];

export interface SignalHeader {
  side: string;
  /** Rows. */
  count: number;
  columns: SignalColumn[];
  /** Common-clock second that `time_s` counts from; kept apart because Float32 holds seven digits only. */
  origin_s: number;
  thinned: boolean;
  /** First and last second that the whole recording holds. */
  recording_from_s: number;
  recording_to_s: number;
  sampling_rate_hz: number;
  /** Full scale of the sensor, where samples lie flat at it or the source says so; null where it is not known. */
  acc_range_mps2: number | null;
  gyr_range_radps: number | null;
}

export interface SignalWindow {
  header: SignalHeader;
  /** One array a column, each of `header.count` values. */
  columns: Partial<Record<SignalColumn, Float32Array>>;
}

/** Writes a window; `columns` in the order of `header.columns`. */
export function encodeSignal(header: SignalHeader, columns: readonly Float32Array[]): Uint8Array {
  const json = new TextEncoder().encode(JSON.stringify(header));
  const padded = Math.ceil(json.length / 4) * 4;
  const bytes = new Uint8Array(4 + padded + columns.length * header.count * 4);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, padded, true);
  bytes.fill(0x20, 4, 4 + padded);
  bytes.set(json, 4);
  let at = 4 + padded;
  for (const column of columns) {
    for (let i = 0; i < header.count; i++, at += 4) view.setFloat32(at, column[i], true);
  }
  return bytes;
}

/**
 * Reads a window.
 * @throws RangeError when the bytes are shorter than the header says
 */
export function decodeSignal(bytes: ArrayBuffer): SignalWindow {
  const view = new DataView(bytes);
  const length = view.getUint32(0, true);
  const header = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 4, length))) as SignalHeader;
  const columns: SignalWindow['columns'] = {};
  let at = 4 + length;
  for (const name of header.columns) {
    const column = new Float32Array(header.count);
    for (let i = 0; i < header.count; i++, at += 4) column[i] = view.getFloat32(at, true);
    columns[name] = column;
  }
  return { header, columns };
}
