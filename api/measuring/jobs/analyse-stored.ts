import type { RepetitionResult } from '../../../shared/analysis.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import { analyseSources } from '../analyse-sources.ts';
import { conditionsOf, courseOf } from '../course-and-conditions.ts';
import { noRunningFound } from '../no-running-found.ts';
import { provenanceOf } from '../provenance.ts';
import { mergeSettings } from '../read-settings.ts';
import { type AnalysisRows, analysisRowsOf } from '../../store/analysis-rows.ts';
import { openRecording } from '../../store/read-samples.ts';
import { listRecordings } from '../../store/recordings.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import type { AnalyseTask } from './tasks.ts';

/**
 * The analysis of a repetition's stored recordings with its present course and conditions, as rows. Reads the store and changes nothing.
 * @throws FaultError REPETITION_NOT_FOUND, REPETITION_NOT_RECORDED, SETTINGS_UNREADABLE, NO_RUNNING_FOUND
 */
export function analyseStored(store: Store, { repetition_id, settings: given }: AnalyseTask): AnalysisRows {
  const repetition = getRepetitionLine(store, repetition_id);
  const recordings = listRecordings(store, repetition_id);
  if (recordings.length === 0)
    throw new FaultError(fault('REPETITION_NOT_RECORDED', { repetition_id }, { repetition_id }));
  const settings = given === null ? DEFAULT_SETTINGS : mergeSettings(given, 'settings');
  const analysis = analyseSources(
    recordings.map(({ recording_id }) => openRecording(store, recording_id)),
    courseOf(repetition),
    conditionsOf(store, repetition),
    settings,
  );
  const { quality, faults, repetitions } = analysis;
  const result = sameRepetition(store, repetition_id, repetition.number_in_recording ?? 1, repetitions);
  if (!result) throw new FaultError(noRunningFound(quality));
  const raw = recordings.map(({ raw_sha256 }) => raw_sha256);
  return analysisRowsOf(store, { result, quality, faults, provenance: provenanceOf(analysis, settings, raw) });
}

/** The repetition of a recording that overlaps most with the earlier result; by its number where there was none. */
function sameRepetition(
  store: Store,
  repetitionId: number,
  numberInRecording: number,
  found: RepetitionResult[],
): RepetitionResult | undefined {
  const earlier = store.first(
    store.query
      .selectFrom('analyses')
      .innerJoin('repetitions', 'repetitions.analysis_id', 'analyses.analysis_id')
      .select('result')
      .where('repetitions.repetition_id', '=', repetitionId),
  );
  return sameRun(found, earlier ? (JSON.parse(earlier.result) as RepetitionResult) : null, numberInRecording);
}

/** Of what an analysis found, the repetition that overlaps most with an earlier result; by its number where there was none. */
export function sameRun(
  found: RepetitionResult[],
  earlier: Pick<RepetitionResult, 'start_s' | 'end_s'> | null,
  numberInRecording: number,
): RepetitionResult | undefined {
  if (!earlier) return found.find((result) => result.repetition === numberInRecording) ?? found[0];
  const { start_s, end_s } = earlier;
  const overlap = (result: RepetitionResult) => Math.min(result.end_s, end_s) - Math.max(result.start_s, start_s);
  return found.filter((result) => overlap(result) > 0).sort((a, b) => overlap(b) - overlap(a))[0];
}
