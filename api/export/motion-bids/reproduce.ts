import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import type { Conditions, Course } from '../../../shared/analysis.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { analyse } from '../../../dsp/analyse.ts';
import type { AnalysisSettings } from '../../../dsp/settings/settings.ts';
import { stepsCsv } from '../../measuring/steps-csv.ts';
import { VERSION } from '../../version.ts';
import { readJson, readMotionFile, unreadable } from './read-motion-bids.ts';

interface StepsSidecar {
  GeneratedBy: { Version: string }[];
  Method: string;
  Settings: AnalysisSettings;
  RepetitionInRecording: number;
  Course?: Course;
  Conditions?: Conditions;
}

/** One repetition made again. */
export interface Reproduced {
  file: string;
  /** True when the table has the same bytes. */
  same: boolean;
  made_by: string;
  made_again_by: string;
  /** Cells that differ, with the greatest difference of each column. */
  differing_cells: number;
  greatest: { column: string; difference: number }[];
  /** Why it could not be compared cell by cell; empty otherwise. */
  problem: string;
}

/**
 * Analyses every repetition of an exported Motion-BIDS set again with the settings it was made with, and compares the tables
 * byte for byte.
 * @throws FaultError DATASET_UNREADABLE
 */
export function* reproduce(folder: string): Generator<Reproduced> {
  const root = join(folder, 'derivatives', 'cinderlane');
  if (!existsSync(root)) throw unreadable('no_derivatives', root);
  for (const file of stepsFiles(root)) yield reproduceOne(folder, root, file);
}

function stepsFiles(root: string): string[] {
  return (readdirSync(root, { recursive: true }) as string[])
    .filter((name) => name.endsWith('_steps.csv'))
    .sort()
    .map((name) => join(root, name));
}

function reproduceOne(folder: string, root: string, file: string): Reproduced {
  const sidecar = readJson(file.replace(/\.csv$/, '.json')) as StepsSidecar;
  const before = readFileSync(file, 'utf8');
  const motion = join(folder, relative(root, dirname(file)));
  const [, stemStart, run] = /^(sub-[^_]+_ses-[^_]+_task-[^_]+)_(run-\d+)_/.exec(basename(file)) ?? [];
  if (!existsSync(motion)) throw unreadable('no_raw', motion);
  const files = readdirSync(motion)
    .filter((name) => name.startsWith(`${stemStart}_`) && name.endsWith(`_${run}_motion.tsv`))
    .sort();
  const sensors = files.map((name) =>
    readMotionFile(join(motion, name), join(dirname(file), name.replace('_motion.tsv', '_desc-recording.json'))),
  );
  const analysis = analyse(
    {
      sensors,
      course: sidecar.Course ?? UNKNOWN_COURSE,
      conditions: sidecar.Conditions ?? UNKNOWN_CONDITIONS,
    },
    sidecar.Settings,
  );
  const repetition = analysis.repetitions.find((r) => r.repetition === sidecar.RepetitionInRecording);
  const after = stepsCsv(repetition?.contacts ?? []);
  return {
    file: relative(folder, file),
    same: before === after,
    made_by: `${sidecar.GeneratedBy[0]?.Version} ${sidecar.Method}`,
    made_again_by: `${VERSION} ${analysis.method}`,
    ...(before === after ? { differing_cells: 0, greatest: [], problem: '' } : differences(before, after)),
  };
}

/** Cell by cell; tables of unlike length are told apart by that alone. */
function differences(before: string, after: string): Pick<Reproduced, 'differing_cells' | 'greatest' | 'problem'> {
  const [a, b] = [before, after].map((text) =>
    text
      .trimEnd()
      .split('\n')
      .map((line) => line.split(',')),
  );
  if (a.length !== b.length) {
    return { differing_cells: 0, greatest: [], problem: `${a.length - 1} contacts before, ${b.length - 1} now` };
  }
  const greatest = new Map<string, number>();
  let cells = 0;
  for (let row = 1; row < a.length; row++) {
    a[row].forEach((cell, k) => {
      if (cell === b[row][k]) return;
      cells++;
      const difference = Math.abs(Number(cell) - Number(b[row][k]));
      const column = a[0][k];
      greatest.set(
        column,
        Math.max(greatest.get(column) ?? 0, Number.isFinite(difference) ? difference : Number.POSITIVE_INFINITY),
      );
    });
  }
  return {
    differing_cells: cells,
    greatest: [...greatest].map(([column, difference]) => ({ column, difference })),
    problem: '',
  };
}
