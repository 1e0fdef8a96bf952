/**
 * Minimum-jerk paths through given points. Human free movements follow trajectories close to the ones that minimise the
 * integral of squared jerk (Flash and Hogan 1985, J Neurosci 5:1688-1703, from memory). Between points that is a quintic;
 * through several points it is the natural quintic spline, continuous up to its fourth derivative.
 */

export interface PathState {
  value: number;
  rate: number;
  acceleration: number;
}

/** One path over time: value, first and second derivative at any instant between its first and last point. */
export type SmoothPath = (time_s: number) => PathState;

/** Quintic through two states, as coefficients of powers of (time - t0). */
function quintic(start: PathState, end: PathState, h: number): number[] {
  const d = end.value - start.value - start.rate * h - (start.acceleration * h * h) / 2;
  const dv = end.rate - start.rate - start.acceleration * h;
  const da = end.acceleration - start.acceleration;
  return [
    start.value,
    start.rate,
    start.acceleration / 2,
    (10 * d - 4 * dv * h + 0.5 * da * h * h) / h ** 3,
    (-15 * d + 7 * dv * h - da * h * h) / h ** 4,
    (6 * d - 3 * dv * h + 0.5 * da * h * h) / h ** 5,
  ];
}

/** Gaussian elimination with row pivoting; systems here have at most some twenty unknowns. */
function solve(matrix: number[][], right: number[]): number[] {
  const n = right.length;
  for (let column = 0; column < n; column++) {
    let pivot = column;
    for (let row = column + 1; row < n; row++) {
      if (Math.abs(matrix[row][column]) > Math.abs(matrix[pivot][column])) pivot = row;
    }
    [matrix[column], matrix[pivot]] = [matrix[pivot], matrix[column]];
    [right[column], right[pivot]] = [right[pivot], right[column]];
    for (let row = column + 1; row < n; row++) {
      const factor = matrix[row][column] / matrix[column][column];
      if (factor === 0) continue;
      for (let k = column; k < n; k++) matrix[row][k] -= factor * matrix[column][k];
      right[row] -= factor * right[column];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let row = n - 1; row >= 0; row--) {
    let sum = right[row];
    for (let k = row + 1; k < n; k++) sum -= matrix[row][k] * x[k];
    x[row] = sum / matrix[row][row];
  }
  return x;
}

/**
 * @param start state at the first time
 * @param via interior points: only their values are given; rates and accelerations follow from least jerk
 * @param end state at the last time
 */
export function minimumJerkPath(
  start: PathState & { time_s: number },
  via: { time_s: number; value: number }[],
  end: PathState & { time_s: number },
): SmoothPath {
  const times = [start.time_s, ...via.map((point) => point.time_s), end.time_s];
  const n = via.length;
  const states: PathState[] = [start, ...via.map((point) => ({ value: point.value, rate: 0, acceleration: 0 })), end];
  if (n > 0) {
    // Unknown rate and acceleration at each interior point; third and fourth derivative must agree from both sides.
    const matrix: number[][] = [];
    const right: number[] = [];
    for (let i = 1; i <= n; i++) {
      const h = times[i] - times[i - 1];
      const g = times[i + 1] - times[i];
      const before = states[i].value - states[i - 1].value;
      const after = states[i + 1].value - states[i].value;
      const third = new Array<number>(2 * n).fill(0);
      const fourth = new Array<number>(2 * n).fill(0);
      let thirdRight = -60 * (before / h ** 3) + 60 * (after / g ** 3);
      let fourthRight = -360 * (before / h ** 4) - 360 * (after / g ** 4);
      const add = (index: number, rate3: number, acc3: number, rate4: number, acc4: number) => {
        if (index === 0 || index === n + 1) {
          thirdRight -= rate3 * states[index].rate + acc3 * states[index].acceleration;
          fourthRight -= rate4 * states[index].rate + acc4 * states[index].acceleration;
          return;
        }
        third[2 * (index - 1)] += rate3;
        third[2 * (index - 1) + 1] += acc3;
        fourth[2 * (index - 1)] += rate4;
        fourth[2 * (index - 1) + 1] += acc4;
      };
      // Third derivative at the end of the left piece minus at the start of the right piece, and the same for the fourth.
      add(i - 1, -24 / h ** 2, -3 / h, -168 / h ** 3, -24 / h ** 2);
      add(i, -36 / h ** 2 + 36 / g ** 2, 9 / h + 9 / g, -192 / h ** 3 - 192 / g ** 3, 36 / h ** 2 - 36 / g ** 2);
      add(i + 1, 24 / g ** 2, -3 / g, -168 / g ** 3, 24 / g ** 2);
      matrix.push(third, fourth);
      right.push(thirdRight, fourthRight);
    }
    const solution = solve(matrix, right);
    for (let i = 1; i <= n; i++) {
      states[i] = { value: states[i].value, rate: solution[2 * (i - 1)], acceleration: solution[2 * (i - 1) + 1] };
    }
  }
  const pieces = states.slice(0, -1).map((state, i) => quintic(state, states[i + 1], times[i + 1] - times[i]));
  return (time_s) => {
    let i = 0;
    while (i < pieces.length - 1 && time_s > times[i + 1]) i++;
    const u = time_s - times[i];
    const [c0, c1, c2, c3, c4, c5] = pieces[i];
    return {
      value: c0 + u * (c1 + u * (c2 + u * (c3 + u * (c4 + u * c5)))),
      rate: c1 + u * (2 * c2 + u * (3 * c3 + u * (4 * c4 + u * 5 * c5))),
      acceleration: 2 * c2 + u * (6 * c3 + u * (12 * c4 + u * 20 * c5)),
    };
  };
}

/** Quintics through fully given states, in time order; held at the first and last value outside. */
export function joinedPath(states: (PathState & { time_s: number })[]): SmoothPath {
  const pieces = states.slice(0, -1).map((state, i) => minimumJerkPath(state, [], states[i + 1]));
  const first = states[0];
  const last = states[states.length - 1];
  return (time_s) => {
    let i = 0;
    while (i < pieces.length - 1 && time_s > states[i + 1].time_s) i++;
    return pieces[i](Math.min(last.time_s, Math.max(first.time_s, time_s)));
  };
}
