/**
 * Touchdowns of one repetition, made consistent with their neighbours by what is known of running: feet alternate, and
 * step times change little from stride to stride. Each touchdown moves as far as its own uncertainty lets it: one known
 * to 1.5 ms stays where it is, one in doubt by 10 ms settles where the others expect it.
 */

/** One touchdown of either foot, in time order, feet alternating. */
export interface UnsettledTouchdown {
  touchdown_s: number;
  touchdown_s_u: number;
}

/** Step time from one stride to the next of the same foot, SD as a share of it. Common practice: 2 to 3 %. */
const STRIDE_TO_STRIDE = 0.025;
/** Left step against right step, SD as a share. Common practice: step times of the two sides differ by 2 to 3 %. */
const SIDE_TO_SIDE = 0.05;
/** In a start each step is this much shorter or longer than the one before, SD as a share, fading over the first steps. */
const START_CHANGE = 0.12;
const START_STEPS = 5;
/** Weight of Student's t with so few degrees of freedom: a touchdown far outside its uncertainty was mistaken. */
const STUDENT_DF = 4;
const ROUNDS = 4;

/**
 * @param touchdowns of alternate feet without one missing between, at least 4
 * @param from_start true when the first of them is the first of the run
 * @returns posterior touchdown and its standard uncertainty for each
 */
export function settleTouchdowns(touchdowns: readonly UnsettledTouchdown[], from_start: boolean): UnsettledTouchdown[] {
  const n = touchdowns.length;
  if (n < 4) return [...touchdowns];
  const measured = touchdowns.map((t) => t.touchdown_s);
  const usual = (measured[n - 1] - measured[0]) / (n - 1);
  let settled = measured;
  let variances = touchdowns.map((t) => t.touchdown_s_u ** 2);
  for (let round = 0; round < ROUNDS; round++) {
    const system = new BandSystem(n);
    for (let i = 0; i < n; i++) {
      const u = touchdowns[i].touchdown_s_u;
      const distance = (settled[i] - measured[i]) / u;
      const weight = round === 0 ? 1 : (STUDENT_DF + 1) / (STUDENT_DF + distance * distance);
      system.add(i, [1], measured[i], Math.sqrt(weight) / u);
    }
    for (let i = 0; i + 2 < n; i++) system.add(i, [1, -2, 1], 0, 1 / (usual * spread(SIDE_TO_SIDE, i, from_start)));
    for (let i = 0; i + 3 < n; i++) {
      system.add(i, [1, -1, -1, 1], 0, 1 / (usual * spread(STRIDE_TO_STRIDE, i, from_start)));
    }
    const solution = system.solve();
    settled = solution.values;
    variances = solution.variances;
  }
  return touchdowns.map((_, i) => ({ touchdown_s: settled[i], touchdown_s_u: Math.sqrt(variances[i]) }));
}

function spread(usual: number, step: number, from_start: boolean): number {
  return from_start ? Math.hypot(usual, START_CHANGE * Math.exp(-step / START_STEPS)) : usual;
}

/** Weighted least squares whose rows touch at most four neighbouring unknowns, by band Cholesky. */
class BandSystem {
  private readonly band: Float64Array[];
  private readonly right: Float64Array;

  constructor(private readonly n: number) {
    this.band = Array.from({ length: 4 }, () => new Float64Array(n));
    this.right = new Float64Array(n);
  }

  /** Adds the row sum factors[k] x[first + k] = value, times `weight`. */
  add(first: number, factors: readonly number[], value: number, weight: number): void {
    const w = weight * weight;
    for (let a = 0; a < factors.length; a++) {
      this.right[first + a] += w * factors[a] * value;
      for (let b = a; b < factors.length; b++) this.band[b - a][first + a] += w * factors[a] * factors[b];
    }
  }

  solve(): { values: number[]; variances: number[] } {
    const { n, band } = this;
    const l = Array.from({ length: 4 }, () => new Float64Array(n));
    for (let j = 0; j < n; j++) {
      for (let d = 0; d < 4 && j + d < n; d++) {
        let sum = band[d][j];
        for (let k = 1; k + d < 4 && j - k >= 0; k++) sum -= l[k][j - k] * l[k + d][j - k];
        l[d][j] = d === 0 ? Math.sqrt(sum) : sum / l[0][j];
      }
    }
    const solveFor = (b: Float64Array): Float64Array => {
      const x = b.slice();
      for (let i = 0; i < n; i++) {
        for (let d = 1; d < 4 && i - d >= 0; d++) x[i] -= l[d][i - d] * x[i - d];
        x[i] /= l[0][i];
      }
      for (let i = n - 1; i >= 0; i--) {
        for (let d = 1; d < 4 && i + d < n; d++) x[i] -= l[d][i] * x[i + d];
        x[i] /= l[0][i];
      }
      return x;
    };
    const values = solveFor(this.right);
    const variances = Array.from({ length: n }, (_, i) => {
      const e = new Float64Array(n);
      e[i] = 1;
      return solveFor(e)[i];
    });
    return { values: [...values], variances };
  }
}
