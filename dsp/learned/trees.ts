/**
 * Regression trees with two outputs each (touchdown and toe-off). Nodes lie in one array, a node's left branch right behind it. Of a
 * leaf, `feature` is `LEAF`, and `threshold` and `right` hold its two outputs as whole numbers.
 */
export interface Trees {
  /** Index of each tree's first node. */
  roots: Uint32Array;
  /** Which number of the shape a node asks for; LEAF of a leaf. */
  feature: Uint16Array;
  /** Values up to and including this go left. */
  threshold: Int16Array;
  /** How many nodes after itself a node's right branch begins. */
  right: Int16Array;
}

export const LEAF = 0xffff;

/**
 * @param root index of a tree's first node
 * @param shape whole numbers, as `stride-shape.ts` makes them
 * @returns index of the leaf that the shape ends in
 */
export function leafOf(
  { feature, threshold, right }: Record<'feature' | 'threshold' | 'right', ArrayLike<number>>,
  root: number,
  shape: Int16Array,
): number {
  let node = root;
  while (feature[node] !== LEAF) node += shape[feature[node]] <= threshold[node] ? 1 : right[node];
  return node;
}
