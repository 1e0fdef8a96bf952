import type { MeasuredRate, StreamCounts } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { type Notice, notice, SILENT } from '../../../shared/notice.ts';

/** A change of the measured rate that is worth a new line in the log, as a fraction. */
const RATE_STEP = 1e-4;

/** What a stream does that its description does not say: told once when it happens, and kept in view while it lasts. */
export class StreamOddities {
  private told = { restarts: 0, stamp_jumps: 0, before_start_packets: 0, out_of_sequence_packets: 0, other_packets: 0 };
  private rate_told = false;
  private rate_hz = 0;

  /** What has happened since the last call. */
  news(name: string, nominal_hz: number, counts: StreamCounts, rate: MeasuredRate | null): Notice[] {
    const words: Notice[] = [];
    const more = (key: keyof typeof this.told) => counts[key] - this.told[key];
    if (more('restarts') > 0) words.push(notice('counted_anew', { name }));
    if (more('stamp_jumps') > 0) words.push(notice('clock_jumped', { name }));
    if (more('before_start_packets') > 0)
      words.push(notice('from_before_start', { name, packets: more('before_start_packets') }));
    // One damaged packet is no news; a row of them is.
    const unplaced = more('out_of_sequence_packets');
    if (unplaced >= 10) words.push(notice('place_unknown', { name, packets: unplaced }));
    if (this.told.other_packets === 0 && counts.other_packets > 0) words.push(notice('other_packets', { name }));
    const { restarts, stamp_jumps, before_start_packets, other_packets } = counts;
    const out_of_sequence_packets = unplaced >= 10 ? counts.out_of_sequence_packets : this.told.out_of_sequence_packets;
    this.told = { restarts, stamp_jumps, before_start_packets, other_packets, out_of_sequence_packets };
    if (rate?.off && !this.rate_told)
      words.push(notice('rate_off', { name, nominal_hz, rate_hz: rate.rate_hz, by: rate.by }));
    this.rate_told ||= rate?.off ?? false;
    return words;
  }

  /** What is wrong at the moment, for the sensor's card; empty when nothing is. */
  standing(nominal_hz: number, rate: MeasuredRate | null): Notice {
    if (!rate?.off) return SILENT;
    return notice('rate_off_standing', { nominal_hz, rate_hz: rate.rate_hz, by: rate.by });
  }

  /** Whether the rate that samples are timed by differs from what the log says. */
  rateChanged(rate_hz: number): boolean {
    if (Math.abs(rate_hz / this.rate_hz - 1) < RATE_STEP) return false;
    this.rate_hz = rate_hz;
    return true;
  }
}
