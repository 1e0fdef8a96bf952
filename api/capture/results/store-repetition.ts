import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { type RepetitionResult, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { conditionsOf, courseOf } from '../../measuring/course-and-conditions.ts';
import { provenanceOf } from '../../measuring/provenance.ts';
import { noRunningFound } from '../../measuring/jobs/store-import.ts';
import { insertAnalysis } from '../../store/analyses.ts';
import { describeRecording, encodeSamples } from '../../store/chunks.ts';
import { RawFileWriter, type StoredRawFile } from '../../store/raw-files.ts';
import { insertRecording } from '../../store/recordings.ts';
import { earliestStart, recordRepetition } from '../../store/record-repetition.ts';
import { createRepetition, listRepetitions } from '../../store/repetitions.ts';
import { nowUtc, type Store } from '../../store/store.ts';
import { type AnalysedExcerpt, analyseExcerpts, repetitionWithin } from './analyse-excerpt.ts';
import type { Excerpt } from '../recording/excerpt.ts';

export interface LiveRepetition {
  athlete_id: number;
  session_id: number;
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
 * Analyses a repetition's packet logs, with course and conditions of the athlete's first planned repetition of the session
 * where there is one. Nothing is stored.
 * @returns null when the logs hold no sample
 */
export function measureLiveRepetition(store: Store, live: LiveRepetition): MeasuredRepetition | null {
  const planned = listRepetitions(store, {
    session_id: live.session_id,
    athlete_id: live.athlete_id,
    state: 'planned',
  })[0];
  const course = planned ? courseOf(planned) : UNKNOWN_COURSE;
  const conditions = conditionsOf(store, planned ?? { ...live, wind_mps: null });
  const excerpt = analyseExcerpts(live.excerpts, course, conditions);
  if (excerpt === null) return null;
  const result = repetitionWithin(excerpt, live.start_s, live.end_s);
  return { planned_id: planned?.repetition_id ?? null, excerpt, result };
}

/**
 * Stores a measured repetition: packet logs, samples and result, all or nothing.
 * @returns its identifier
 */
export async function storeLiveRepetition(
  store: Store,
  live: LiveRepetition,
  { planned_id, excerpt, result }: MeasuredRepetition,
): Promise<number> {
  const raw: StoredRawFile[] = [];
  for (const { file_name, bytes } of live.excerpts) {
    const writer = new RawFileWriter(store, file_name);
    await writer.append(bytes);
    raw.push(await writer.finish());
  }
  return store.transaction(() => {
    const recording_ids = excerpt.aligned.sensors.map((sensor, i) => {
      const stream = excerpt.aligned.stream_of[i];
      return insertRecording(
        store,
        {
          athlete_id: live.athlete_id,
          import_id: null,
          raw_file_id: raw[stream].raw_file_id,
          source: 'radio',
          file_name: live.excerpts[stream].file_name,
          layout: null,
          evidence: excerpt.assemblers[stream].counts,
        },
        describeRecording(sensor),
        encodeSamples(sensor.samples),
      );
    });
    const repetition_id =
      planned_id ?? createRepetition(store, { session_id: live.session_id, athlete_id: live.athlete_id }).repetition_id;
    const { sensors } = excerpt.aligned;
    recordRepetition(store, repetition_id, {
      recording_ids,
      recorded_utc: earliestStart(sensors.map(({ samples }) => samples.start_utc)) ?? nowUtc(),
      number_in_recording: result?.repetition ?? 1,
      fault: result === null ? noRunningFound(excerpt.analysis.quality) : null,
    });
    if (result !== null) {
      insertAnalysis(store, {
        repetition_id,
        result,
        quality: excerpt.analysis.quality,
        faults: excerpt.analysis.faults,
        provenance: provenanceOf(
          excerpt.analysis,
          DEFAULT_SETTINGS,
          raw.map((file) => file.raw_sha256),
        ),
      });
    }
    return repetition_id;
  });
}
