import type { Analysis, Conditions, Course, RepetitionResult } from '../../../shared/analysis.ts';
import type { StreamCounts } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { describeRecording, type EncodedChunk, encodeSamples, type RecordingDescription } from '../../store/chunks.ts';
import type { Excerpt } from '../recording/excerpt.ts';
import { type AnalysedExcerpt, analyseExcerpts, repetitionWithin } from './analyse-excerpt.ts';

/** What an analysis needs to know of a repetition beside its packets. */
export interface Circumstances {
  course: Course;
  conditions: Conditions;
}

/** A measured repetition, ready to be stored: nothing of it is slow any more, and it can go from thread to thread. */
export interface PreparedRepetition {
  recordings: {
    /** Which of the repetition's packet logs it came from. */
    excerpt: number;
    description: RecordingDescription;
    chunks: EncodedChunk[];
    counts: StreamCounts;
  }[];
  /** Null when no running was found. */
  result: RepetitionResult | null;
  analysis: Pick<Analysis, 'quality' | 'faults' | 'method' | 'filters'>;
}

/** Encodes what was measured; some tens of milliseconds. */
export function prepareRepetition(
  { aligned, assemblers, analysis }: AnalysedExcerpt,
  result: RepetitionResult | null,
): PreparedRepetition {
  const { quality, faults, method, filters } = analysis;
  return {
    recordings: aligned.sensors.map((sensor, i) => ({
      excerpt: aligned.stream_of[i],
      description: describeRecording(sensor),
      chunks: encodeSamples(sensor.samples),
      counts: assemblers[aligned.stream_of[i]].counts,
    })),
    result,
    analysis: { quality, faults, method, filters },
  };
}

/** Measures a repetition's packet logs and prepares what is to be stored. @returns null when the logs hold no sample */
export function measureAndPrepare(
  excerpts: Excerpt[],
  span: { start_s: number; end_s: number },
  { course, conditions }: Circumstances,
): PreparedRepetition | null {
  const excerpt = analyseExcerpts(excerpts, course, conditions);
  return excerpt === null ? null : prepareRepetition(excerpt, repetitionWithin(excerpt, span.start_s, span.end_s));
}
