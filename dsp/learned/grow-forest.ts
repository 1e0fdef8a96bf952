import { type Forest, LEAF_PART } from './forest.ts';
import { finished, type GrowingTrees, LEAF, partRows } from './trees.ts';

/** Shapes with what is true of them. */
export interface Lesson {
  /** One a contact, all of one length. */
  shapes: readonly Int16Array[];
  /** Shares of a stride after the shape's anchor. */
  touchdown: Float64Array;
  toe_off: Float64Array;
}

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
  const grown: GrowingTrees = { roots: [], feature: [], threshold: [], right: [] };
  const columns = byColumn(lesson.shapes);
  const rows = new Int32Array(lesson.shapes.length);
  for (let t = 0; t < options.trees; t++) {
    grown.roots.push(grown.feature.length);
    for (let i = 0; i < rows.length; i++) rows[i] = i;
    grow(grown, columns, lesson, rows, options, chance);
  }
  return finished(grown);
}

/**
 * One number of all contacts after the other.
 * @param shapes Int16Array(m) each, one a contact
 * @returns Int16Array(n contacts) each, one a number
 */
export function byColumn(shapes: readonly Int16Array[]): Int16Array[] {
  return Array.from({ length: shapes[0].length }, (_, c) => Int16Array.from(shapes, (shape) => shape[c]));
}

/** Grows the branch of some rows; they are put in order in place. */
function grow(
  nodes: GrowingTrees,
  columns: Int16Array[],
  lesson: Lesson,
  rows: Int32Array,
  options: ForestOptions,
  chance: () => number,
): void {
  const node = nodes.feature.length;
  const cut = rows.length >= 2 * options.leaf ? bestCut(columns, lesson, rows, options, chance) : null;
  if (!cut) {
    nodes.feature.push(LEAF);
    nodes.threshold.push(Math.round(LEAF_PART * meanOf(lesson.touchdown, rows)));
    nodes.right.push(Math.round(LEAF_PART * meanOf(lesson.toe_off, rows)));
    return;
  }
  nodes.feature.push(cut.column);
  nodes.threshold.push(cut.threshold);
  nodes.right.push(0);
  const split = partRows(columns[cut.column], rows, cut.threshold);
  grow(nodes, columns, lesson, rows.subarray(0, split), options, chance);
  nodes.right[node] = nodes.feature.length - node;
  grow(nodes, columns, lesson, rows.subarray(split), options, chance);
}

interface Cut {
  column: number;
  threshold: number;
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
  let most = (total_down ** 2 + total_off ** 2) / n + 1e-12;
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
    const kept = (down ** 2 + off ** 2) / count + ((total_down - down) ** 2 + (total_off - off) ** 2) / (n - count);
    if (kept > most) {
      most = kept;
      best = { column, threshold };
    }
  }
  return best;
}

function meanOf(values: Float64Array, rows: Int32Array): number {
  let sum = 0;
  for (const row of rows) sum += values[row];
  return sum / rows.length;
}
