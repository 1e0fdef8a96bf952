import { type FoldModels, foldModels } from '../training/fold-models.ts';
import { type RunnerSet, runnerSets, runnerTargets } from './by-runner.ts';
import { type Coverage, coverageOf } from './coverage-table.ts';
import { demoCases } from './demo-cases.ts';
import { forcePlateCases } from './force-plate-cases.ts';
import { type CaseResult, judgeCase } from './judge-case.ts';
import { type Figures, pool } from './pool.ts';
import { realSensorFigures } from './real-sensor-checks.ts';
import { repetitionFigures, repetitionTargets } from './repetition-checks.ts';
import { reportSections, type Section } from './report-sections.ts';
import { reportTargets } from './report-targets.ts';
import { secondGeneratorCases } from './second-generator-cases.ts';
import { range, SPRINTS, simulatedCases } from './simulated-sets.ts';
import type { TargetLine } from './targets.ts';
import { timeScaled } from './time-scaled.ts';
import type { ValidationCase } from './validation-case.ts';
import { VARIANTS, vary } from './variants.ts';

export interface Report {
  /** Judged by runner, by models that never saw the runner. */
  runners: RunnerSet[];
  cases: Figures[];
  sections: Section[];
  coverage: Coverage[];
  notes: string[];
  targets: TargetLine[];
  analysis_ms: number;
}

export interface ValidateOptions {
  /** Folders of the real recordings; null leaves them out. */
  folders: string[] | null;
  /** Only what a test can afford: few variants, few simulated runs. */
  quick: boolean;
  /** Part of the names to run. */
  only: string;
}

export async function validate(options: ValidateOptions): Promise<Report> {
  const folds: FoldModels = options.folders ? await foldModels(options.folders) : new Map();
  const results: CaseResult[] = [];
  const turning: number[] = [];
  const run = (test: ValidationCase): CaseResult => {
    const { result } = judgeCase(test, test.runner === undefined ? undefined : folds.get(test.runner));
    results.push(result);
    return result;
  };
  const runVariants = (test: ValidationCase, base: CaseResult) => {
    for (const variant of options.quick ? ['turned', 'no gyroscope'] : Object.keys(VARIANTS)) {
      if (variant.endsWith(' Hz') && Number.parseInt(variant, 10) >= test.rate_hz) continue;
      const varied = run(vary(test, variant));
      if (variant === 'turned') turning.push(largestChange(base, varied));
    }
  };
  if (options.folders) {
    for await (const test of forcePlateCases(options.folders, options.only)) {
      const base = run(test);
      // Every runner at one speed is made worse in known ways; all are seen without their gyroscopes.
      if (/T(25|45)$/.test(test.name)) {
        run(vary(test, 'no gyroscope'));
        continue;
      }
      runVariants(test, base);
      for (const scale of options.quick ? [2] : [1.5, 2]) run(timeScaled(test, scale));
    }
  }
  for (const test of simulatedCases(options.quick)) {
    if (!test.name.includes(options.only)) continue;
    const base = run(test);
    if (test.set === SPRINTS) runVariants(test, base);
  }
  for (const test of secondGeneratorCases(options.quick, options.only)) run(test);
  for await (const test of demoCases(options.quick ? [100] : [75, 100]))
    if (test.name.includes(options.only)) run(test);
  const sensors = options.folders
    ? await realSensorFigures(options.folders[0])
    : { lines: ['Real recordings are not here.'], targets: [] };
  const repetitions = repetitionTargets(repetitionFigures(range(501, options.quick ? 2 : 8)));
  const runners = runnerSets(results);
  return {
    runners,
    cases: results.map((r) => pool(`${r.name} ${r.mounting} ${r.rate_hz.toFixed(0)} Hz ${r.variant}`, [r])),
    sections: reportSections(results),
    coverage: coverageOf(results),
    targets: [...runnerTargets(runners), ...reportTargets(results), ...repetitions, ...sensors.targets],
    notes: [
      `Turning the sensor moved touchdown or toe-off by at most ${Math.max(0, ...turning).toFixed(2)} ms.`,
      ...sensors.lines,
    ],
    analysis_ms: results.reduce((sum, r) => sum + r.analysis_ms, 0) / results.length,
  };
}

/** Largest difference of one instant between two runs over the same contacts, ms. */
function largestChange(a: CaseResult, b: CaseResult): number {
  if (a.found !== b.found) return Number.POSITIVE_INFINITY;
  const errors = (r: CaseResult) => [...r.errors.touchdown, ...r.errors.toe_off].map((e) => e.error);
  const other = errors(b);
  return Math.max(0, ...errors(a).map((e, i) => Math.abs(e - other[i])));
}
