import { leafOf, type Trees } from './trees.ts';

/** An ensemble of trees that say their mean. A leaf's outputs are in `LEAF_PART` of a stride. */
export type Forest = Trees;

/** A leaf's outputs are whole numbers of this many a stride: 5e-5 strides are 0.04 ms of a jog. */
export const LEAF_PART = 20000;

/** What the trees say of one shape, as shares of a stride after its anchor. */
export interface ForestAnswer {
  touchdown: number;
  toe_off: number;
  /** Standard deviation between the trees. */
  touchdown_sd: number;
  toe_off_sd: number;
}

/**
 * Mean over the trees, and how far they differ.
 * @param shape whole numbers, as `stride-shape.ts` makes them
 */
export function askForest(forest: Forest, shape: Int16Array): ForestAnswer {
  let [down, off, down_2, off_2] = [0, 0, 0, 0];
  for (const root of forest.roots) {
    const leaf = leafOf(forest, root, shape);
    const [a, b] = [forest.threshold[leaf] / LEAF_PART, forest.right[leaf] / LEAF_PART];
    down += a;
    off += b;
    down_2 += a * a;
    off_2 += b * b;
  }
  const n = forest.roots.length;
  const spread = (sum: number, squares: number): number => Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2));
  return {
    touchdown: down / n,
    toe_off: off / n,
    touchdown_sd: spread(down, down_2),
    toe_off_sd: spread(off, off_2),
  };
}
