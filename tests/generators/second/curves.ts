/** Polynomials in time: the building blocks of hip, foot and joint motion. Times in s. */
export type Curve = (t: number) => number;
export interface End {
  p: number;
  v: number;
  a: number;
}

/** Fifth-order polynomial between two ends (position, velocity, acceleration); usable a little beyond them. */
export function quintic(t0: number, e0: End, t1: number, e1: End): Curve {
  const T = t1 - t0;
  const v0 = e0.v * T;
  const v1 = e1.v * T;
  const a0 = e0.a * T * T;
  const a1 = e1.a * T * T;
  const d = e1.p - e0.p;
  const c3 = 10 * d - 6 * v0 - 4 * v1 - 1.5 * a0 + 0.5 * a1;
  const c4 = -15 * d + 8 * v0 + 7 * v1 + 1.5 * a0 - a1;
  const c5 = 6 * d - 3 * (v0 + v1) - 0.5 * (a0 - a1);
  return (t) => {
    const s = (t - t0) / T;
    return e0.p + s * (v0 + s * (a0 / 2 + s * (c3 + s * (c4 + s * c5))));
  };
}

/** Smooth step from 0 to 1 with zero first and second derivative at both ends. */
export function smoothStep(s: number): number {
  const x = Math.max(0, Math.min(1, s));
  return x * x * x * (10 + x * (-15 + 6 * x));
}

/**
 * Smoothest polynomial (least integral of squared jerk) from one end (value, velocity, acceleration) to the other (value,
 * velocity) that passes near inner points [fraction, value]: muscles move limbs smoothly, so poses are aimed at, not forced.
 */
export function throughPoints(
  t0: number,
  e0: End,
  t1: number,
  e1: { p: number; v: number },
  inner: [number, number][],
  jerkCost = 3e-7,
): Curve {
  const T = t1 - t0;
  const v0 = e0.v * T;
  const v1 = e1.v * T;
  const a0 = e0.a * T * T;
  const d = e1.p - e0.p - v0 - a0 / 2;
  const c3 = 4 * d - (v1 - v0 - a0);
  const c4 = -3 * d + (v1 - v0 - a0);
  const base = (s: number) => e0.p + s * (v0 + s * (a0 / 2 + s * (c3 + s * c4)));
  const terms = 6;
  const term = (j: number, s: number) => s ** (3 + j) * (1 - s) * (1 - s);
  // third derivative of s^n (1 - 2s + s^2)
  const third = (n: number, s: number) =>
    n * (n - 1) * (n - 2) * s ** (n - 3) -
    2 * (n + 1) * n * (n - 1) * s ** (n - 2) +
    (n + 2) * (n + 1) * n * s ** (n - 1);
  const rows: { basis: number[]; value: number; weight: number }[] = inner.map(([s, value]) => ({
    basis: Array.from({ length: terms }, (_, j) => term(j, s)),
    value: value - base(s),
    weight: 1,
  }));
  const grid = 40;
  for (let i = 0; i <= grid; i++) {
    const s = i / grid;
    rows.push({
      basis: Array.from({ length: terms }, (_, j) => third(3 + j, s)),
      value: -(6 * c3 + 24 * c4 * s),
      weight: jerkCost / grid,
    });
  }
  // and no great acceleration left at the end
  rows.push({ basis: new Array<number>(terms).fill(2), value: -(a0 + 6 * c3 + 12 * c4), weight: 3e-5 });
  const c = leastSquares(rows, terms);
  return (t) => {
    const s = (t - t0) / T;
    let q = 0;
    for (let j = terms - 1; j >= 0; j--) q = q * s + (c[j] as number);
    return base(s) + s * s * s * (1 - s) * (1 - s) * q;
  };
}

/** Weighted linear least squares by the normal equations and Gaussian elimination. */
function leastSquares(rows: { basis: number[]; value: number; weight: number }[], n: number): number[] {
  const m = Array.from({ length: n }, () => new Array<number>(n + 1).fill(0));
  for (const { basis, value, weight } of rows)
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) m[i][j] += weight * basis[i] * basis[j];
      m[i][n] += weight * basis[i] * value;
    }
  for (let i = 0; i < n; i++) {
    let pivot = i;
    for (let k = i + 1; k < n; k++) if (Math.abs(m[k][i]) > Math.abs(m[pivot][i])) pivot = k;
    [m[i], m[pivot]] = [m[pivot], m[i]];
    for (let k = i + 1; k < n; k++) {
      const f = m[k][i] / m[i][i];
      for (let j = i; j <= n; j++) m[k][j] -= f * m[i][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    let v = m[i][n];
    for (let j = i + 1; j < n; j++) v -= m[i][j] * x[j];
    x[i] = v / m[i][i];
  }
  return x;
}

/** Position, velocity and acceleration of a curve at t by central differences (h in s). */
export function endOf(curve: Curve, t: number, h = 2e-4): End {
  const a = curve(t - h);
  const b = curve(t);
  const c = curve(t + h);
  return { p: b, v: (c - a) / (2 * h), a: (a - 2 * b + c) / (h * h) };
}

/** A curve made of pieces, each valid from its start time to the next one's. */
export class Pieces {
  private starts: number[] = [];
  private curves: Curve[] = [];
  private at = 0;
  add(start: number, curve: Curve): void {
    this.starts.push(start);
    this.curves.push(curve);
  }
  value: Curve = (t) => {
    let i = this.at;
    if (t < (this.starts[i] as number)) i = 0;
    while (i + 1 < this.starts.length && t >= (this.starts[i + 1] as number)) i++;
    this.at = i;
    return (this.curves[i] as Curve)(t);
  };
}
