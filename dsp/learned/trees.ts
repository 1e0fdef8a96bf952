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

/** Trees that are being grown. */
export interface GrowingTrees {
  roots: number[];
  feature: number[];
  threshold: number[];
  right: number[];
}

/**
 * @param root index of a tree's first node
 * @param shape whole numbers, as `stride-shape.ts` makes them
 * @returns index of the leaf that the shape ends in
 */
export function leafOf(
  { feature, threshold, right }: Omit<Trees | GrowingTrees, 'roots'>,
  root: number,
  shape: Int16Array,
): number {
  let node = root;
  while (feature[node] !== LEAF) node += shape[feature[node]] <= threshold[node] ? 1 : right[node];
  return node;
}

/** Grown trees, as they are asked. */
export function finished(grown: GrowingTrees): Trees {
  return {
    roots: Uint32Array.from(grown.roots),
    feature: Uint16Array.from(grown.feature),
    threshold: Int16Array.from(grown.threshold),
    right: Int16Array.from(grown.right),
  };
}

/**
 * Puts rows whose value is up to the limit first, in place.
 * @param values one a row that there is
 * @param rows indices of values
 * @param limit in the unit of the values
 * @returns how many rows there are up to it
 */
export function partRows(values: ArrayLike<number>, rows: Int32Array, limit: number): number {
  let [a, b] = [0, rows.length - 1];
  while (a <= b) {
    if (values[rows[a]] <= limit) a++;
    else {
      [rows[a], rows[b]] = [rows[b], rows[a]];
      b--;
    }
  }
  return a;
}
