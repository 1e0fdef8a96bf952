import type { Analysis, Conditions, Course, Provenance } from '../../../shared/analysis.ts';
import type { Fault } from '../../../shared/fault.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import type { LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import type { Mounting, Side } from '../../../shared/words.ts';
import type { PreviewRequest } from '../preview-layout.ts';
import type { SetAside } from '../../store/set-aside.ts';
import type { ResultIndex } from '../result-spool.ts';
import type { SpoolIndex } from '../sample-spool.ts';
import type { AnalysisRows } from '../../store/analysis-rows.ts';
import type { EncodedChunk, RecordingDescription } from '../../store/chunks.ts';

/** Reads raw files of the store, analyses them and prepares what is to be stored. */
export interface ReadTask {
  kind: 'read';
  files: {
    side: Side | null;
    raw_file_id: number;
    file_name: string;
    bytes: number;
    layout: LayoutCorrection | null;
  }[];
  mounting: Mounting;
  rate_hz: number | null;
  course: Course;
  conditions: Conditions;
}

/** Analyses a repetition of the store again, from its recordings with its present course and conditions. */
export interface AnalyseTask {
  kind: 'analyse';
  repetition_id: number;
  /** Part of the settings that differs from the defaults; null for the defaults. */
  settings: unknown;
}

/** Shows what the beginning of a file is taken for; nothing of it is kept. */
export interface PreviewTask extends PreviewRequest {
  kind: 'preview';
}

export type Task = ReadTask | AnalyseTask | PreviewTask;

/** What a task answers. */
export type OutcomeOf<T extends Task> = T extends PreviewTask
  ? LayoutPreview
  : T extends AnalyseTask
    ? AnalysisRows
    : ReadOutcome;

/** A decoded recording, ready to be stored. */
export interface PreparedRecording {
  file_index: number;
  layout: unknown;
  evidence: unknown;
  description: RecordingDescription;
  /** Its samples; empty where they lie in a spool file. */
  chunks: EncodedChunk[];
  spool: SpoolIndex | null;
}

export interface ReadOutcome {
  recordings: PreparedRecording[];
  /** What holds for all of its repetitions. */
  analysis: Pick<Analysis, 'quality' | 'faults'>;
  /** Its repetitions as rows; empty where they lie in a spool file. */
  rows: AnalysisRows[];
  results: ResultIndex | null;
  provenance: Provenance;
  /** Rows set aside, doubts about the alignment and the like. */
  faults: Fault[];
  rejected: SetAside;
  /** The time and splits were not used, because the recording holds several repetitions. */
  course_time_dropped: boolean;
}

export interface TaskProgress {
  step: string;
  /** 0 to 1. */
  progress: number;
}

export type WorkerMessage =
  | { type: 'progress'; progress: TaskProgress }
  | { type: 'outcome'; outcome: OutcomeOf<Task> }
  | { type: 'fault'; fault: Fault };
