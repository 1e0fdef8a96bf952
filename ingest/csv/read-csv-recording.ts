import type { SampleBlock } from '../../shared/sample-block.ts';
import type { Fault } from '../../shared/fault.ts';
import type { Layout } from '../../shared/schemas/layout.ts';
import type { Side } from '../../shared/words.ts';
import type { Evidence } from './columns/evidence.ts';
import { joinBlocks } from './rows/join-blocks.ts';
import { openCsvRecording, type ReadCsvOptions, type RecordingBlock } from './open-csv-recording.ts';
import type { RejectedRow } from './rows/rejected-rows.ts';

export type { ReadCsvOptions } from './open-csv-recording.ts';

/** A whole file, read. */
export interface CsvRecording {
  /** One entry a sensor; the file may hold both feet. */
  recordings: { side: Side; samples: SampleBlock }[];
  /** What was understood; save it to read files of the same shape without guessing. */
  layout: Layout;
  /** Why, decision by decision. */
  evidence: Evidence[];
  /** What was met and did not stop the reading. */
  faults: Fault[];
  /** The first 10 000 rows set aside. */
  rejected_rows: RejectedRow[];
  rejected_count: number;
  rows: number;
  /** SHA-256 of the file as it came, by which the same file is recognised. */
  sha256: string;
}

/**
 * Reads a recording from a CSV file, whole: a gzip file or plain text, of any layout that names, units or the data tell.
 * @param source the file's bytes, at once or in pieces
 * @returns samples in SI units on the sensor's own clock, with the layout, its evidence and what went wrong
 * @throws FaultError when the file is refused; LayoutQuestion (a FaultError with choices) when it does not tell how to be read
 * Limits: holds all samples in memory, 56 bytes each; `openCsvRecording` hands out blocks instead.
 */
export async function readCsvRecording(
  source: Uint8Array | AsyncIterable<Uint8Array>,
  options: ReadCsvOptions,
): Promise<CsvRecording> {
  const open = await openCsvRecording(source, options);
  const blocks: RecordingBlock[] = [];
  for await (const block of open.blocks) blocks.push(block);
  const summary = open.summary();
  const recordings = summary.sensors.flatMap((sensor, index) => {
    const own = blocks.filter((block) => block.sensor === index).map((block) => block.samples);
    if (own.length === 0) return [];
    const samples: SampleBlock = {
      ...joinBlocks(own),
      sampling_rate_hz: sensor.sampling_rate_hz,
      acc_range_mps2: sensor.acc_range_mps2,
      gyr_range_radps: sensor.gyr_range_radps,
    };
    return [{ side: sensor.side, samples }];
  });
  return {
    recordings,
    layout: open.layout,
    evidence: open.evidence,
    faults: summary.faults,
    rejected_rows: summary.rejected_rows,
    rejected_count: summary.rejected_count,
    rows: summary.rows,
    sha256: summary.sha256,
  };
}
