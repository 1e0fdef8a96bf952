import { mean } from '../numeric/statistics.ts';
import { type BoostedTrees, STEP_PART } from './boosted.ts';
import {
  byColumn,
  type Cut,
  finished,
  type Growth,
  growTree,
  type Lesson,
  noTrees,
  squaresTaken,
} from './growing-trees.ts';
import { leafOf } from './trees.ts';

export interface BoostingOptions {
  trees: number;
  /** Questions from a tree's root to its leaves. */
  depth: number;
  /** Part of what is still wrong that each tree mends. */
  rate: number;
  /** Fewest contacts in a leaf. */
  leaf: number;
  /** Share of the contacts that each tree sees. */
  seen: number;
  /** Share of the numbers that is tried at each node. */
  tried: number;
}

/** Cuts of a number that are tried lie between so many groups of contacts of about equal size. */
const GROUPS = 32;

/** What is still wrong of each contact, shares of a stride. */
type Left = Pick<Lesson, 'touchdown' | 'toe_off'>;

/**
 * Trees grown one after the other on what those before them left wrong (stochastic gradient boosting of squares: Friedman JH (2002) Comput
 * Stat Data Anal 38:367, doi 10.1016/S0167-9473(01)00065-2). Both outputs share each tree's questions.
 * @param chance uniform in [0, 1), seeded: the same numbers grow the same trees
 */
export function growBoosted(
  { shapes, touchdown, toe_off }: Lesson,
  options: BoostingOptions,
  chance: () => number,
): BoostedTrees {
  const start = { touchdown: mean(touchdown), toe_off: mean(toe_off) };
  const left: Left = {
    touchdown: touchdown.map((v) => v - start.touchdown),
    toe_off: toe_off.map((v) => v - start.toe_off),
  };
  const grown = noTrees();
  const growth = new Boosting(inGroups(shapes), left, options, chance);
  for (let t = 0; t < options.trees; t++) {
    growTree(grown, someRows(shapes.length, options.seen, chance), growth);
    for (let i = 0; i < shapes.length; i++) {
      const leaf = leafOf(grown, grown.roots[t], shapes[i]);
      left.touchdown[i] -= grown.threshold[leaf] / STEP_PART;
      left.toe_off[i] -= grown.right[leaf] / STEP_PART;
    }
  }
  return { start, trees: finished(grown) };
}

/** A number of the shapes, as the groups it parts the contacts into. */
interface Grouped {
  /** The group of each contact. */
  group: Uint8Array;
  /** The greatest value of each group, ascending. */
  up_to: Int16Array;
}

function inGroups(shapes: readonly Int16Array[]): Grouped[] {
  return byColumn(shapes).map((values) => {
    const sorted = values.slice().sort();
    const limits = new Set([sorted[sorted.length - 1]]);
    for (let g = 1; g < GROUPS; g++) limits.add(sorted[Math.floor((g * sorted.length) / GROUPS)]);
    const up_to = Int16Array.from(limits).sort();
    return { up_to, group: Uint8Array.from(values, (value) => up_to.findIndex((limit) => value <= limit)) };
  });
}

class Boosting implements Growth {
  /** Of each group of one number: its contacts, and the sums of what is wrong with them. */
  private readonly count = new Float64Array(GROUPS);
  private readonly down = new Float64Array(GROUPS);
  private readonly off = new Float64Array(GROUPS);

  constructor(
    private readonly numbers: readonly Grouped[],
    private readonly left: Left,
    private readonly options: BoostingOptions,
    private readonly chance: () => number,
  ) {}

  cut(rows: Int32Array, depth: number): Cut | null {
    return depth < this.options.depth && rows.length >= 2 * this.options.leaf ? this.bestCut(rows) : null;
  }

  leaf(rows: Int32Array): [touchdown: number, toe_off: number] {
    return [this.stepOf(this.left.touchdown, rows), this.stepOf(this.left.toe_off, rows)];
  }

  private stepOf(left: Float64Array, rows: Int32Array): number {
    let sum = 0;
    for (const row of rows) sum += left[row];
    return rows.length === 0 ? 0 : Math.round((STEP_PART * this.options.rate * sum) / rows.length);
  }

  /** The cut, of some numbers by chance, that leaves the least squares of both outputs; none where no cut takes any. */
  private bestCut(rows: Int32Array): Cut | null {
    const n = rows.length;
    let [all_down, all_off] = [0, 0];
    for (const row of rows) {
      all_down += this.left.touchdown[row];
      all_off += this.left.toe_off[row];
    }
    let best: Cut | null = null;
    let most = squaresTaken(n, all_down, all_off) + 1e-12;
    for (let k = Math.ceil(this.options.tried * this.numbers.length); k > 0; k--) {
      const number = Math.floor(this.chance() * this.numbers.length);
      const { group, up_to } = this.numbers[number];
      this.addUp(group, rows);
      let [count, down, off] = [0, 0, 0];
      for (let g = 0; g < up_to.length - 1; g++) {
        count += this.count[g];
        down += this.down[g];
        off += this.off[g];
        if (count < this.options.leaf) continue;
        if (n - count < this.options.leaf) break;
        const taken = squaresTaken(count, down, off) + squaresTaken(n - count, all_down - down, all_off - off);
        if (taken > most) [most, best] = [taken, { number, threshold: up_to[g], values: group, limit: g }];
      }
    }
    return best;
  }

  private addUp(group: Uint8Array, rows: Int32Array): void {
    for (const sums of [this.count, this.down, this.off]) sums.fill(0);
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i];
      const g = group[row];
      this.count[g]++;
      this.down[g] += this.left.touchdown[row];
      this.off[g] += this.left.toe_off[row];
    }
  }
}

/** A share of the rows by chance, each at most once. */
function someRows(n: number, share: number, chance: () => number): Int32Array {
  const rows: number[] = [];
  for (let i = 0; i < n; i++) if (chance() < share) rows.push(i);
  return Int32Array.from(rows);
}
