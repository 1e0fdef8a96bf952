import { analyse } from '../../dsp/analyse.ts';
import { DEFAULT_SETTINGS } from '../../dsp/settings.ts';
import type { Analysis, AnalysisInput } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import { provenanceOf } from '../analysis/provenance.ts';
import { readSensorFiles } from '../analysis/read-sensor-files.ts';
import { mergeSettings } from '../analysis/read-settings.ts';
import { listLayouts } from '../store/layouts.ts';
import { readRawFile } from '../store/raw-files.ts';
import { describeRecording, encodeSamples, readRecording } from '../store/recordings.ts';
import type { Store } from '../store/store.ts';
import type { AnalyseTask, PreparedRecording, ReadTask, Task, TaskOutcome, TaskProgress } from './tasks.ts';

/** Does one task. Everything here is slow work without side effects: what it answers is stored by the caller. */
export async function runTask(
  store: Store,
  task: Task,
  onProgress: (progress: TaskProgress) => void,
): Promise<TaskOutcome> {
  return task.kind === 'read' ? readAndAnalyse(store, task, onProgress) : analyseStored(store, task);
}

async function readAndAnalyse(
  store: Store,
  task: ReadTask,
  onProgress: (progress: TaskProgress) => void,
): Promise<TaskOutcome> {
  let reported = 0;
  const { sensors, faults, rejected } = await readSensorFiles(
    task.files.map((file) => ({
      side: file.side,
      file_name: file.file_name,
      bytes: readRawFile(store, file.raw_file_id),
      total_bytes: file.bytes,
    })),
    {
      mounting: task.mounting,
      rate_hz: task.rate_hz ?? undefined,
      layout: task.layout ?? undefined,
      saved_layouts: listLayouts(store).map((saved) => saved.layout),
      onProgress: (part) => {
        if (part < reported + 0.01) return;
        reported = part;
        onProgress({ step: 'reading the samples', progress: 0.7 * part });
      },
    },
  );
  onProgress({ step: 'finding contacts', progress: 0.75 });
  const input = {
    sensors: sensors.map((sensor) => sensor.recording),
    course: task.course,
    conditions: task.conditions,
  };
  const { analysis, dropped } = analyseOneCourse(input, faults);
  onProgress({ step: 'storing', progress: 0.9 });
  const recordings = sensors.map(
    (sensor): PreparedRecording => ({
      file_index: sensor.file_index,
      layout: sensor.layout,
      evidence: sensor.evidence,
      description: describeRecording(sensor.recording),
      chunks: encodeSamples(sensor.recording.samples),
    }),
  );
  return {
    recordings,
    analysis,
    provenance: provenanceOf(
      analysis,
      DEFAULT_SETTINGS,
      sensors.map((sensor) => sensor.raw_sha256),
    ),
    faults,
    rejected,
    course_time_dropped: dropped,
  };
}

function analyseStored(store: Store, task: AnalyseTask): TaskOutcome {
  const settings = task.settings === null ? DEFAULT_SETTINGS : mergeSettings(task.settings, 'settings');
  const sensors = task.recording_ids.map((id) => readRecording(store, id));
  const analysis = analyse({ sensors, course: task.course, conditions: task.conditions }, settings);
  return {
    recordings: [],
    analysis,
    provenance: provenanceOf(analysis, settings, task.raw_sha256),
    faults: [],
    rejected: { count: 0, rows: [] },
    course_time_dropped: false,
  };
}

/** A time belongs to one repetition: where a recording turns out to hold several, it is left out and that is said. */
function analyseOneCourse(input: AnalysisInput, faults: Fault[]): { analysis: Analysis; dropped: boolean } {
  const analysis = analyse(input);
  const timed = input.course.time_s !== null || input.course.splits.length > 0;
  if (analysis.repetitions.length < 2 || !timed) return { analysis, dropped: false };
  faults.push({
    code: 'TIME_OF_SEVERAL_REPETITIONS',
    message: `The recording holds ${analysis.repetitions.length} repetitions but one time was given; a time belongs to one repetition. It was left out.`,
    where: { repetitions: analysis.repetitions.length },
    hint: 'Give each repetition its own time; it is then analysed again with it.',
  });
  return { analysis: analyse({ ...input, course: { ...input.course, time_s: null, splits: [] } }), dropped: true };
}
