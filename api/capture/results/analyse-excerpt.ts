import type { Excerpt } from '../recording/excerpt.ts';
import { analyse } from '../../../dsp/analyse.ts';
import { type AlignedStreams, alignStreams } from '../../../ingest/ble/assembly/align-streams.ts';
import { refineByFeet } from '../../../ingest/ble/assembly/refine-by-feet.ts';
import { assembleLog, readPacketLog, utcOfHostZero } from '../../../ingest/ble/assembly/read-packet-log.ts';
import type { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import type { Analysis, Conditions, Course, RepetitionResult } from '../../../shared/analysis.ts';

export interface AnalysedExcerpt {
  aligned: AlignedStreams;
  assemblers: StreamAssembler[];
  analysis: Analysis;
}

/**
 * Analyses packet logs as files are analysed: read, assembled, put on one clock. What a live repetition is stored with is
 * made by this and nothing else, so that anybody who has the logs gets the same result.
 * @returns null when the logs hold no sample
 */
export function analyseExcerpts(excerpts: Excerpt[], course: Course, conditions: Conditions): AnalysedExcerpt | null {
  const logs = excerpts.map((excerpt) => readPacketLog(excerpt.file_name, excerpt.bytes));
  const assemblers = logs.map((log) => assembleLog(log));
  const streams = logs.map(({ header }, i) => ({
    side: header.side,
    mounting: header.mounting,
    assembler: assemblers[i],
    clock_offset_u_s: header.clock_offset_u_s,
  }));
  const utc_zero_ms = logs.length > 0 ? utcOfHostZero(logs[0]) : null;
  const by_arrival = alignStreams(streams, undefined, undefined, utc_zero_ms);
  if (by_arrival === null) return null;
  const aligned = { ...by_arrival, sensors: refineByFeet(by_arrival.sensors) };
  return { aligned, assemblers, analysis: analyse({ sensors: aligned.sensors, course, conditions }) };
}

/** The repetition that overlaps most with a stretch of host time; null when none does. */
export function repetitionWithin(
  { aligned, analysis }: AnalysedExcerpt,
  start_s: number,
  end_s: number,
): RepetitionResult | null {
  const overlap = (result: RepetitionResult) =>
    Math.min(aligned.zero_s + result.end_s, end_s) - Math.max(aligned.zero_s + result.start_s, start_s);
  const [best] = analysis.repetitions.filter((result) => overlap(result) > 0).sort((a, b) => overlap(b) - overlap(a));
  return best ?? null;
}
