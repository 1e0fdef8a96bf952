import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { type RepetitionResult, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { conditionsOf, courseOf } from '../../measuring/course-and-conditions.ts';
import { provenanceOf } from '../../measuring/provenance.ts';
import { noRunningFound } from '../../measuring/no-running-found.ts';
import { insertAnalysis } from '../../store/analyses.ts';
import { RawFileWriter, type StoredRawFile } from '../../store/raw-files.ts';
import { insertRecording } from '../../store/recordings.ts';
import { earliestStart, recordRepetition } from '../../store/record-repetition.ts';
import { createRepetition, getRepetitionLine, listRepetitions } from '../../store/repetitions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { type AnalysedExcerpt, analyseExcerpts, repetitionWithin } from './analyse-excerpt.ts';
import type { Excerpt } from '../recording/excerpt.ts';
import { type Circumstances, type PreparedRepetition, prepareRepetition } from './prepare-repetition.ts';

/** Whose repetition it is, and of which session. */
export interface RepetitionPlace {
  athlete_id: number;
  session_id: number;
}

export interface LiveRepetition extends RepetitionPlace {
  excerpts: Excerpt[];
  /** First touchdown and last toe-off, host time, as the live view saw them. */
  start_s: number;
  end_s: number;
}

export interface MeasuredRepetition {
  /** The planned repetition that it fills; null makes a new one. */
  planned_id: number | null;
  excerpt: AnalysedExcerpt;
  /** Null when no running was found. */
  result: RepetitionResult | null;
}

/**
 * The athlete's first planned repetition of the session, where there is one; course and conditions are its own.
 * @param repetition_id another one that is to rest on what is stored
 */
export function circumstancesOf(
  store: Store,
  { session_id, athlete_id }: RepetitionPlace,
  repetition_id?: number,
): Circumstances & { planned_id: number | null } {
  const planned: RepetitionLine | undefined =
    repetition_id === undefined
      ? listRepetitions(store, { session_id, athlete_id, state: 'planned' })[0]
      : getRepetitionLine(store, repetition_id);
  return {
    planned_id: planned?.repetition_id ?? null,
    course: planned ? courseOf(planned) : UNKNOWN_COURSE,
    conditions: conditionsOf(store, planned ?? { session_id, athlete_id, wind_mps: null }),
  };
}

/**
 * Analyses a repetition's packet logs, with course and conditions of the athlete's first planned repetition of the session
 * where there is one. Nothing is stored.
 * @returns null when the logs hold no sample
 */
export function measureLiveRepetition(store: Store, live: LiveRepetition): MeasuredRepetition | null {
  const { planned_id, course, conditions } = circumstancesOf(store, live);
  const excerpt = analyseExcerpts(live.excerpts, course, conditions);
  if (excerpt === null) return null;
  return { planned_id, excerpt, result: repetitionWithin(excerpt, live.start_s, live.end_s) };
}

/**
 * Stores a measured repetition: packet logs, samples and result, all or nothing.
 * @returns its identifier
 */
export function storeLiveRepetition(
  store: Store,
  live: LiveRepetition,
  { planned_id, excerpt, result }: MeasuredRepetition,
): Promise<number> {
  return storePrepared(store, live, live.excerpts, planned_id, prepareRepetition(excerpt, result));
}

/** The same for what another thread has measured and prepared. @returns the repetition's identifier */
export async function storePrepared(
  store: Store,
  { athlete_id, session_id }: RepetitionPlace,
  excerpts: Excerpt[],
  planned_id: number | null,
  { recordings, result, analysis }: PreparedRepetition,
): Promise<number> {
  const raw: StoredRawFile[] = [];
  for (const { file_name, bytes } of excerpts) {
    const writer = new RawFileWriter(store, file_name);
    await writer.append(bytes);
    raw.push(await writer.finish());
  }
  return store.transaction(() => {
    const recording_ids = recordings.map(({ excerpt, description, chunks, counts }) => {
      const { raw_file_id } = raw[excerpt];
      const { file_name } = excerpts[excerpt];
      return insertRecording(
        store,
        { athlete_id, import_id: null, raw_file_id, source: 'radio', file_name, layout: null, evidence: counts },
        description,
        chunks,
      );
    });
    const repetition_id = planned_id ?? createRepetition(store, { session_id, athlete_id }).repetition_id;
    recordRepetition(store, repetition_id, {
      recording_ids,
      recorded_utc: earliestStart(recordings.map(({ description }) => description.start_utc)) ?? nowUtc(),
      number_in_recording: result?.repetition ?? 1,
      fault: result === null ? noRunningFound(analysis.quality) : null,
    });
    if (result !== null) {
      const { quality, faults } = analysis;
      const hashes = raw.map((file) => file.raw_sha256);
      const provenance = provenanceOf(analysis, DEFAULT_SETTINGS, hashes);
      insertAnalysis(store, { repetition_id, result, quality, faults, provenance });
    }
    return repetition_id;
  });
}
