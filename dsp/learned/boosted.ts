import { leafOf, type Trees } from './trees.ts';

/** Trees whose answers add up, each mending a little of what those before it left wrong. A leaf's outputs are in `STEP_PART` of a stride. */
export interface BoostedTrees {
  /** What the trees add to, shares of a stride after the anchor. */
  start: { touchdown: number; toe_off: number };
  trees: Trees;
}

/** A leaf's steps are whole numbers of this many a stride: they are small, and there are hundreds of them. */
export const STEP_PART = 400000;

/**
 * @param shape whole numbers, as `stride-shape.ts` makes them
 * @returns shares of a stride after the shape's anchor
 */
export function askBoosted({ start, trees }: BoostedTrees, shape: Int16Array): { touchdown: number; toe_off: number } {
  let [down, off] = [0, 0];
  for (const root of trees.roots) {
    const leaf = leafOf(trees, root, shape);
    down += trees.threshold[leaf];
    off += trees.right[leaf];
  }
  return { touchdown: start.touchdown + down / STEP_PART, toe_off: start.toe_off + off / STEP_PART };
}
