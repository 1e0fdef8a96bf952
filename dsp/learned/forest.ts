/**
 * An ensemble of regression trees with two outputs each (touchdown and toe-off). Nodes lie in one array, a node's left branch
 * right behind it. Of a leaf, `feature` is `LEAF`, and `threshold` and `right` hold its two outputs in `LEAF_PART` of a stride.
 */
export interface Forest {
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
export function askForest({ roots, feature, threshold, right }: Forest, shape: Int16Array): ForestAnswer {
  let [down, off, down_2, off_2] = [0, 0, 0, 0];
  for (const root of roots) {
    let node = root;
    while (feature[node] !== LEAF) node += shape[feature[node]] <= threshold[node] ? 1 : right[node];
    const [a, b] = [threshold[node] / LEAF_PART, right[node] / LEAF_PART];
    down += a;
    off += b;
    down_2 += a * a;
    off_2 += b * b;
  }
  const n = roots.length;
  const spread = (sum: number, squares: number): number => Math.sqrt(Math.max(0, squares / n - (sum / n) ** 2));
  return {
    touchdown: down / n,
    toe_off: off / n,
    touchdown_sd: spread(down, down_2),
    toe_off_sd: spread(off, off_2),
  };
}
