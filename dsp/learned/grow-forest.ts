import { type Forest, LEAF_PART } from './forest.ts';
import { byColumn, type Cut, finished, growTree, type Lesson, noTrees, squaresTaken } from './growing-trees.ts';

export interface ForestOptions {
  trees: number;
  /** Fewest contacts in a leaf. */
  leaf: number;
  /** Share of the numbers that is tried at each node. */
  tried: number;
}

/**
 * Extremely randomized trees (Geurts P, Ernst D, Wehenkel L (2006) Mach Learn 63:3, doi 10.1007/s10994-006-6226-1): at each node
 * a random cut of each of some random numbers is tried, and the one that leaves the least squares of both outputs is kept. Every tree
 * sees every contact.
 * @param chance uniform in [0, 1), seeded: the same numbers grow the same forest
 */
export function growForest(lesson: Lesson, options: ForestOptions, chance: () => number): Forest {
  const grown = noTrees();
  const columns = byColumn(lesson.shapes);
  const rows = new Int32Array(lesson.shapes.length);
  for (let t = 0; t < options.trees; t++) {
    for (let i = 0; i < rows.length; i++) rows[i] = i;
    growTree(grown, rows, {
      cut: (some) => (some.length >= 2 * options.leaf ? bestCut(columns, lesson, some, options, chance) : null),
      leaf: (some) => [
        Math.round(LEAF_PART * meanOf(lesson.touchdown, some)),
        Math.round(LEAF_PART * meanOf(lesson.toe_off, some)),
      ],
    });
  }
  return finished(grown);
}

function bestCut(
  columns: Int16Array[],
  { touchdown, toe_off }: Lesson,
  rows: Int32Array,
  { leaf, tried }: ForestOptions,
  chance: () => number,
): Cut | null {
  const n = rows.length;
  let [total_down, total_off] = [0, 0];
  for (let i = 0; i < n; i++) {
    total_down += touchdown[rows[i]];
    total_off += toe_off[rows[i]];
  }
  let best: Cut | null = null;
  let most = squaresTaken(n, total_down, total_off) + 1e-12;
  const tries = Math.ceil(tried * columns.length);
  for (let k = 0; k < tries; k++) {
    const column = Math.floor(chance() * columns.length);
    const values = columns[column];
    let [low, high] = [32767, -32768];
    for (let i = 0; i < n; i++) {
      const value = values[rows[i]];
      if (value < low) low = value;
      if (value > high) high = value;
    }
    const threshold = low + Math.floor(chance() * (high - low));
    if (low === high) continue;
    let [count, down, off] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      const row = rows[i];
      if (values[row] > threshold) continue;
      count++;
      down += touchdown[row];
      off += toe_off[row];
    }
    if (count < leaf || n - count < leaf) continue;
    const taken = squaresTaken(count, down, off) + squaresTaken(n - count, total_down - down, total_off - off);
    if (taken > most) [most, best] = [taken, { number: column, threshold, values, limit: threshold }];
  }
  return best;
}

function meanOf(values: Float64Array, rows: Int32Array): number {
  let sum = 0;
  for (const row of rows) sum += values[row];
  return sum / rows.length;
}
