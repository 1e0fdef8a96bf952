import { LEAF, type Trees } from './trees.ts';

/** Shapes with what is true of them. */
export interface Lesson {
  /** One a contact, all of one length. */
  shapes: readonly Int16Array[];
  /** Shares of a stride after the shape's anchor. */
  touchdown: Float64Array;
  toe_off: Float64Array;
}

/** Trees that are being grown: as `Trees`, as far as they go. */
export interface GrowingTrees {
  roots: number[];
  feature: number[];
  threshold: number[];
  right: number[];
}

/** What parts the contacts of a node in two. */
export interface Cut {
  /** Which number of the shape is asked for; values of it up to and including the threshold go left. */
  number: number;
  threshold: number;
  /** The same said of the rows: those whose value is up to the limit go left. */
  values: ArrayLike<number>;
  limit: number;
}

/** How a kind of tree decides. */
export interface Growth {
  /**
   * @param rows contacts of a node
   * @param depth questions asked above it
   * @returns null where it is to be a leaf
   */
  cut(rows: Int32Array, depth: number): Cut | null;
  /** What a leaf of these contacts says of touchdown and toe-off, as whole numbers. */
  leaf(rows: Int32Array): [touchdown: number, toe_off: number];
}

/** @returns no trees yet */
export function noTrees(): GrowingTrees {
  return { roots: [], feature: [], threshold: [], right: [] };
}

/**
 * Grows one tree more.
 * @param rows indices of the contacts that it sees; they are put in order in place
 */
export function growTree(grown: GrowingTrees, rows: Int32Array, growth: Growth): void {
  grown.roots.push(grown.feature.length);
  growBranch(grown, rows, growth, 0);
}

function growBranch(grown: GrowingTrees, rows: Int32Array, growth: Growth, depth: number): void {
  const { feature, threshold, right } = grown;
  const node = feature.length;
  const cut = growth.cut(rows, depth);
  if (!cut) {
    const [touchdown, toe_off] = growth.leaf(rows);
    feature.push(LEAF);
    threshold.push(touchdown);
    right.push(toe_off);
    return;
  }
  feature.push(cut.number);
  threshold.push(cut.threshold);
  right.push(0);
  const split = partRows(cut.values, rows, cut.limit);
  growBranch(grown, rows.subarray(0, split), growth, depth + 1);
  right[node] = feature.length - node;
  growBranch(grown, rows.subarray(split), growth, depth + 1);
}

/** Puts rows whose value is up to the limit first, in place. @returns how many there are */
function partRows(values: ArrayLike<number>, rows: Int32Array, limit: number): number {
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
 * One number of all contacts after the other.
 * @param shapes Int16Array(m) each, one a contact
 * @returns Int16Array(n contacts) each, one a number
 */
export function byColumn(shapes: readonly Int16Array[]): Int16Array[] {
  return Array.from({ length: shapes[0].length }, (_, c) => Int16Array.from(shapes, (shape) => shape[c]));
}

/**
 * What a leaf takes off the squares of both outputs by saying their means: of two cuts the one whose two sides take more is better.
 * @param count contacts of the leaf
 * @param down sum of their touchdowns
 * @param off sum of their toe-offs
 * @returns in squares of the outputs' unit
 */
export function squaresTaken(count: number, down: number, off: number): number {
  return (down ** 2 + off ** 2) / count;
}
