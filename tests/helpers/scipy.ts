import { spawnSync } from 'node:child_process';

const PYTHONS = ['/usr/bin/python3', 'python3'];
let found: string | null | undefined;

/** The Python that has SciPy, or null where there is none: tests then say so and are skipped. */
export function pythonWithScipy(): string | null {
  // Started anew for each of thousands of mutants it would take hours.
  if (process.env.MUTATED_TESTS) return null;
  found ??= PYTHONS.find((python) => spawnSync(python, ['-c', 'import scipy, numpy']).status === 0) ?? null;
  return found;
}

/**
 * Runs a Python script that has numpy as np, scipy and `inputs` (JSON) at hand and sets `result`.
 * @returns `result`, through JSON
 */
export function runScipy<T>(script: string, inputs: unknown): T {
  const python = pythonWithScipy();
  if (python === null) throw new Error('no Python with SciPy found');
  const program = [
    'import json, sys',
    'import numpy as np',
    'import scipy, scipy.signal, scipy.stats, scipy.optimize, scipy.integrate',
    'inputs = json.load(sys.stdin)',
    script,
    'def plain(v): return v.tolist() if hasattr(v, "tolist") else float(v)',
    'json.dump(result, sys.stdout, default=plain)',
  ].join('\n');
  const run = spawnSync(python, ['-c', program], {
    input: JSON.stringify(inputs),
    encoding: 'utf8',
    maxBuffer: 256 * 1024 * 1024,
  });
  if (run.status !== 0) throw new Error(`Python failed: ${run.stderr}`);
  return JSON.parse(run.stdout) as T;
}
