import type { Analysis, RepetitionResult } from '../../../shared/analysis.ts';
import { type Fault, FaultError, fault } from '../../../shared/fault.ts';
import { analyseSources } from '../../measuring/analyse-sources.ts';
import { sameRun } from '../../measuring/jobs/analyse-stored.ts';
import { noRunningFound } from '../../measuring/no-running-found.ts';
import type { ArchiveClient } from '../connect.ts';
import { settingsOf, type JobItem, type Run } from './job.ts';
import { type LoadedRepetition, loadRepetition } from './load-repetition.ts';

export interface ArchivedAnalysis {
  /** Null where there is no result. */
  found: { loaded: LoadedRepetition; analysis: Analysis; repetition: RepetitionResult } | null;
  fault: Fault | null;
  read_s: number;
  analysed_s: number;
  read_bytes: number;
}

/** Analyses one repetition of the archive from its samples, as its club would, with a run's settings. */
export async function analyseArchived(client: ArchiveClient, item: JobItem, run: Run): Promise<ArchivedAnalysis> {
  const started = performance.now();
  const loaded = await loadRepetition(client, item);
  const read_s = (performance.now() - started) / 1000;
  const read_bytes = loaded?.read_bytes ?? 0;
  if (loaded === null) {
    const left = fault('REPETITION_LEFT_ARCHIVE', {}, { repetition_id: item.repetition_id });
    return { found: null, fault: left, read_s, analysed_s: 0, read_bytes };
  }
  const begun = performance.now();
  const seconds = () => (performance.now() - begun) / 1000;
  try {
    const { sources, course, conditions, earlier, number_in_recording } = loaded;
    const analysis = analyseSources(sources, course, conditions, settingsOf(run));
    const repetition = sameRun(analysis.repetitions, earlier, number_in_recording);
    if (!repetition)
      return { found: null, fault: noRunningFound(analysis.quality), read_s, analysed_s: seconds(), read_bytes };
    return { found: { loaded, analysis, repetition }, fault: null, read_s, analysed_s: seconds(), read_bytes };
  } catch (error) {
    if (error instanceof FaultError)
      return { found: null, fault: error.toFault(), read_s, analysed_s: seconds(), read_bytes };
    throw error;
  }
}
