import { dirname } from 'node:path';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import type { Analysis, RepetitionResult } from '../../../shared/analysis.ts';
import { type Fault, fault } from '../../../shared/fault.ts';
import { analyseSources } from '../analyse-sources.ts';
import { previewLayout } from '../preview-layout.ts';
import { provenanceOf } from '../provenance.ts';
import { readSensorFiles } from '../read-sensor-files.ts';
import { ResultSpool } from '../result-spool.ts';
import { analysisRowsOf } from '../../store/analysis-rows.ts';
import { encodeSamples } from '../../store/chunks.ts';
import { layoutsNewestFirst } from '../../store/layouts.ts';
import { readRawFile } from '../../store/raw-files.ts';
import { readWhole, type SampleSource } from '../../store/sample-source.ts';
import type { Store } from '../../store/store.ts';
import { analyseStored } from './analyse-stored.ts';
import type { OutcomeOf, PreparedRecording, ReadOutcome, ReadTask, Task, TaskProgress } from './tasks.ts';

/** Does one task. Everything here is slow work without side effects: what it answers is stored by the caller. */
export async function runTask(
  store: Store,
  task: Task,
  onProgress: (progress: TaskProgress) => void,
): Promise<OutcomeOf<Task>> {
  if (task.kind === 'preview') return previewLayout(task, layoutsNewestFirst(store));
  return task.kind === 'read' ? readAndAnalyse(store, task, onProgress) : analyseStored(store, task);
}

async function readAndAnalyse(
  store: Store,
  task: ReadTask,
  onProgress: (progress: TaskProgress) => void,
): Promise<ReadOutcome> {
  let reported = 0;
  const { sensors, faults, rejected } = await readSensorFiles(
    task.files.map((file) => ({
      side: file.side,
      file_name: file.file_name,
      bytes: readRawFile(store, file.raw_file_id),
      total_bytes: file.bytes,
      layout: file.layout,
    })),
    {
      mounting: task.mounting,
      rate_hz: task.rate_hz ?? undefined,
      spool_folder: dirname(store.file),
      saved_layouts: layoutsNewestFirst(store),
      onProgress: (part) => {
        if (part < reported + 0.01) return;
        reported = part;
        onProgress({ step: 'reading the samples', progress: 0.7 * part });
      },
    },
  );
  const results = new ResultSpool(dirname(store.file));
  let stored = false;
  try {
    onProgress({ step: 'finding contacts', progress: 0.7 });
    const sources = sensors.map(({ source }) => source);
    const onAnalysed = (part: number) => onProgress({ step: 'finding contacts', progress: 0.7 + 0.2 * part });
    const { analysis, dropped } = analyseOneCourse(sources, task, faults, results, onAnalysed);
    onProgress({ step: 'storing', progress: 0.9 });
    const recordings = sensors.map(
      (
        { source: { columns: _, clock_start_s: __, stamps: ___, ...description }, spool, ...from },
        i,
      ): PreparedRecording => ({
        file_index: from.file_index,
        layout: from.layout,
        evidence: from.evidence,
        description,
        chunks: spool ? [] : encodeSamples(readWhole(sources[i]).samples),
        spool: spool?.index ?? null,
      }),
    );
    const raw = sensors.map((sensor) => sensor.raw_sha256);
    const provenance = provenanceOf(analysis, DEFAULT_SETTINGS, raw);
    const { quality, faults: found } = analysis;
    stored = true;
    return {
      recordings,
      analysis: { quality, faults: found },
      rows: analysis.repetitions.map((result) => analysisRowsOf(store, { result, quality, faults: found, provenance })),
      results: results.index.lengths.length > 0 ? results.index : null,
      provenance,
      faults,
      rejected,
      course_time_dropped: dropped,
    };
  } finally {
    for (const { spool } of sensors) spool?.close(stored);
    if (stored) results.finish();
    else results.clear();
  }
}

/** A time belongs to one repetition: where a recording turns out to hold several, it is left out and that is said. */
function analyseOneCourse(
  sources: SampleSource[],
  { course, conditions }: ReadTask,
  faults: Fault[],
  results: ResultSpool,
  onProgress: (part: number) => void,
): { analysis: Analysis; dropped: boolean } {
  const onRepetition = (result: RepetitionResult) => results.add(result);
  const analysis = analyseSources(sources, course, conditions, DEFAULT_SETTINGS, { onProgress, onRepetition });
  const found = analysis.repetitions.length + results.index.lengths.length;
  const timed = course.time_s !== null || course.splits.length > 0;
  if (found < 2 || !timed) return { analysis, dropped: false };
  faults.push(fault('TIME_OF_SEVERAL_REPETITIONS', { found }, { repetitions: found }));
  results.clear();
  const untimed = { ...course, time_s: null, splits: [] };
  return {
    analysis: analyseSources(sources, untimed, conditions, DEFAULT_SETTINGS, { onProgress, onRepetition }),
    dropped: true,
  };
}
