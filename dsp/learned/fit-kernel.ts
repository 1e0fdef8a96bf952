import { median } from '../numeric/statistics.ts';
import { AXIS_PART, COORDINATE_PART, coordinates, type KernelModel } from './kernel.ts';
import { principalAxes } from './principal-axes.ts';
import { solvePositive } from './solve-positive.ts';

export interface KernelOptions {
  /** Contacts that are remembered at most. */
  points: number;
  components: number;
  /** Likeness falls to 1/e at the median distance divided by the root of this. */
  narrowness: number;
  /** Variance of a contact's own error, and of what all contacts of a runner share, beside the kernel's. */
  own_variance: number;
  runner_variance: number;
  /** Components count by their spread to the power of 1 less this. */
  levelling: number;
}

/**
 * Learns how far touchdown lies from the anchor. What contacts of one runner share by chance is modelled as a variance of its
 * own, so that two hundred contacts of a runner do not count as two hundred runners.
 * @param shapes of the contacts; only as many as `options.points` are remembered, evenly taken
 * @param touchdown shares of a stride after the anchor
 * @param runners of the contacts
 * @param widths how many numbers each column of the shapes has: each column counts by its own spread
 * @param chance uniform in [0, 1)
 */
export function fitKernel(
  shapes: readonly Int16Array[],
  touchdown: Float64Array,
  runners: readonly string[],
  widths: readonly number[],
  options: KernelOptions,
  chance: () => number,
): KernelModel {
  const taken = evenly(shapes.length, options.points);
  const chosen = taken.map((i) => shapes[i]);
  const y = taken.map((i) => touchdown[i]);
  const numbers = widths.reduce((a, b) => a + b, 0);
  const centre = meanShape(chosen, numbers);
  const scale = columnScales(chosen, centre, widths);
  const rows = chosen.map((shape) => Float64Array.from(centre, (c, i) => (shape[i] - c) / scale[i]));
  const { axes, spreads } = principalAxes(rows, options.components, chance);
  const model: KernelModel = {
    numbers,
    centre,
    scale,
    axes: Int16Array.from(axes, (v) => Math.round(AXIS_PART * v)),
    weight: Float32Array.from(spreads, (sd) => (sd / spreads[0]) ** -options.levelling / spreads[0]),
    points: new Int16Array(0),
    dual: new Float32Array(0),
    gamma: 1,
    offset: y.reduce((a, b) => a + b, 0) / y.length,
    usual: 1,
  };
  const places = chosen.map((shape) => coordinates(model, shape));
  model.points = Int16Array.from(places.flatMap((place) => [...place].map((v) => Math.round(COORDINATE_PART * v))));
  const n = places.length;
  const squares = new Float64Array(n * n);
  for (let a = 0; a < n; a++)
    for (let b = 0; b < a; b++) squares[a * n + b] = squares[b * n + a] = distance2(places[a], places[b]);
  model.gamma = options.narrowness / median(squares.filter((v) => v > 0));
  const likeness = squares.map((v) => Math.exp(-model.gamma * v));
  for (let a = 0; a < n; a++) {
    for (let b = 0; b < n; b++)
      if (runners[taken[a]] === runners[taken[b]]) likeness[a * n + b] += options.runner_variance;
    likeness[a * n + a] += options.own_variance;
  }
  model.dual = Float32Array.from(
    solvePositive(
      likeness,
      y.map((v) => v - model.offset),
    ),
  );
  return model;
}

function evenly(n: number, most: number): number[] {
  const count = Math.min(n, most);
  return Array.from({ length: count }, (_, k) => Math.floor((k * n) / count));
}

function distance2(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let d = 0; d < a.length; d++) sum += (a[d] - b[d]) ** 2;
  return sum;
}

function meanShape(shapes: readonly Int16Array[], numbers: number): Float32Array {
  const sums = new Float64Array(numbers);
  for (const shape of shapes) for (let i = 0; i < numbers; i++) sums[i] += shape[i];
  return Float32Array.from(sums, (sum) => sum / shapes.length);
}

/** Mean over a column's numbers of their standard deviations. */
function columnScales(shapes: readonly Int16Array[], centre: Float32Array, widths: readonly number[]): Float32Array {
  const out = new Float32Array(centre.length);
  let first = 0;
  for (const width of widths) {
    let total = 0;
    for (let i = first; i < first + width; i++) {
      let squares = 0;
      for (const shape of shapes) squares += (shape[i] - centre[i]) ** 2;
      total += Math.sqrt(squares / shapes.length);
    }
    out.fill(total / width, first, first + width);
    first += width;
  }
  return out;
}
