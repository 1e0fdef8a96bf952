import type { Analysis, Course, Provenance } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import type { ReadSensor } from '../analysis/read-sensor-files.ts';
import { repetitionsCsv } from '../tables/repetitions-csv.ts';
import { stepsCsv } from '../tables/steps-csv.ts';

/** Everything one run of `analyze` says. */
export interface AnalyzeOutput {
  analysis: Analysis;
  sensors: ReadSensor[];
  faults: Fault[];
  course: Course;
  provenance: Provenance;
}

/** The files of `--out`, by name. The same input, settings and version give the same bytes. */
export function outputFiles({ analysis, sensors, faults, course, provenance }: AnalyzeOutput): Record<string, string> {
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
    'steps.csv': stepsCsv(analysis.repetitions.flatMap((repetition) => repetition.contacts)),
    'repetitions.csv': repetitionsCsv(analysis.repetitions),
    'quality.json': json({ sensors: placed, other_activity: analysis.other_activity, faults }),
    'provenance.json': json({ ...provenance, course }),
  };
}

function json(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
