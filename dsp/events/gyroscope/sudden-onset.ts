import type { JerkAndSnap } from '../../signals/jerk.ts';
import { argMax } from '../../numeric/peaks.ts';

/** Where an impact may begin, with how suddenly. */
export interface SuddenOnset {
  /** Fractional sample index of the first motion of the impact. */
  at: number;
  /** Samples from there to the first strong snap. */
  rise: number;
  /** Greatest snap just after it over the greatest just before it. */
  jump: number;
  /** How likely it is the landing: greater is likelier. */
  score: number;
}

/** The impact counts as begun where this part of the way from the level before it to its first strong snap is done. */
const ONSET_PART = 0.2;
/** The first snap of at least this part of the greatest within the width is the first strong one: straps ring. */
const FIRST_PART = 0.35;
/** Jumps to less than this part of the greatest snap in the window are ripple. */
const LEAST_STRENGTH = 0.15;
/** Jerk rises as well at a blow; where a swing runs into the sensor's full scale it falls. */
const LEAST_JERK_JUMP = 1.2;

/**
 * Instants at which the snap jumps: local maxima of (greatest just after) over (greatest just before).
 * A landing is such a jump whatever its strength, whereas a fixed level is reached too soon by a fast swing and too late by a
 * gentle heel before a slapping forefoot.
 * @param from first sample looked at
 * @param to last sample looked at
 * @param width samples after the instant that are compared with twice as many before it
 * @returns ascending in time; `at` is a fractional sample
 */
export function suddenOnsets({ jerk, snap }: JerkAndSnap, from: number, to: number, width: number): SuddenOnset[] {
  const w = Math.max(2, Math.round(width));
  const a = Math.max(2 * w, Math.round(from));
  const b = Math.min(snap.length - 1 - w, Math.round(to));
  const strongest = argMax(snap, a, b + 1);
  if (strongest < 0) return [];
  const jumps = new Float64Array(Math.max(0, b - a + 1));
  for (let i = a; i <= b; i++) jumps[i - a] = jumpAt(snap, i, w);
  const found: SuddenOnset[] = [];
  for (let i = a + 1; i < b; i++) {
    const jump = jumps[i - a];
    if (!(jump > 1 && jump >= jumps[i - a - 1] && jump > jumps[i - a + 1])) continue;
    const strength = snap[argMax(snap, i + 1, i + 1 + w)] / snap[strongest];
    const jerk_jump = jumpAt(jerk, i, w);
    if (strength < LEAST_STRENGTH || jerk_jump < LEAST_JERK_JUMP) continue;
    const score = jump * Math.sqrt(jerk_jump * strength);
    found.push({ ...onsetNear(snap, i, w), jump, score });
  }
  return found;
}

function jumpAt(x: Float64Array, i: number, w: number): number {
  return x[argMax(x, i + 1, i + 1 + w)] / x[argMax(x, i - 2 * w, i + 1)];
}

/** The onset between samples: back from the first strong snap to where it leaves the level before. */
function onsetNear(snap: Float64Array, i: number, w: number): { at: number; rise: number } {
  const before = snap[argMax(snap, i - 2 * w, i + 1)];
  const after = snap[argMax(snap, i + 1, i + 1 + w)];
  let first = i + 1;
  while (first < i + w && !(snap[first] >= FIRST_PART * after && snap[first] >= snap[first + 1])) first++;
  const level = before + ONSET_PART * (snap[first] - before);
  let k = first;
  while (k > i - 2 * w && snap[k] > level) k--;
  const at = k + (level - snap[k]) / (snap[k + 1] - snap[k]);
  return { at, rise: first - at };
}
