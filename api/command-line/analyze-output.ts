import { tellAll } from '../../shared/messages/tell-all.ts';
import { FILE_SPEECH } from './speech.ts';
import type { Analysis, Course, Provenance, RepetitionResult } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import type { ReadSensor } from '../measuring/read-sensor-files.ts';
import { repetitionsCsv } from '../measuring/repetitions-csv.ts';
import { stepsCsv } from '../measuring/steps-csv.ts';

/** Everything one run of `analyze` says. */
export interface AnalyzeOutput {
  analysis: Analysis;
  /** Those of the analysis; of a long recording they lie in a file and can be gone through again and again. */
  repetitions: Iterable<RepetitionResult>;
  sensors: ReadSensor[];
  faults: Fault[];
  course: Course;
  provenance: Provenance;
}

/** The files of `--out`, by name. The same input, settings and version give the same bytes. */
export function outputFiles(output: AnalyzeOutput): Record<string, string> {
  const { analysis, repetitions, sensors, faults, course, provenance } = output;
  const placed = sensors.map(({ source, layout, evidence, raw_sha256 }, i) => ({
    ...analysis.quality[i],
    raw_sha256,
    start_utc: source.start_utc,
    clock_offset_s: source.clock_offset_s,
    clock_drift: source.clock_drift,
    clock_offset_u_s: source.clock_offset_u_s,
    layout,
    evidence,
  }));
  return {
    'steps.csv': stepsOf(repetitions),
    'repetitions.csv': repetitionsCsv(repetitions),
    'quality.json': json({ sensors: placed, other_activity: analysis.other_activity, faults }),
    'provenance.json': json({ ...provenance, course }),
  };
}

/** One repetition's contacts at a time, under one line of names. */
function stepsOf(repetitions: Iterable<RepetitionResult>): string {
  const names = stepsCsv([]);
  let text = names;
  for (const { contacts } of repetitions) if (contacts.length > 0) text += stepsCsv(contacts).slice(names.length);
  return text;
}

function json(value: unknown): string {
  return `${JSON.stringify(tellAll(value, FILE_SPEECH), null, 2)}\n`;
}
