/**
 * Kernel ridge regression on the principal components of shapes: a weighted mean over remembered contacts, the nearer the heavier. Far
 * from all of them it says nothing (0): what it learns is how far the first stage is off.
 */
export interface KernelModel {
  /** Numbers of a shape that are read, from the first. */
  numbers: number;
  /** Mean shape, and what each number is divided by. */
  centre: Float32Array;
  scale: Float32Array;
  /** Components, row by row, and what each coordinate is multiplied by before distances are taken. */
  axes: Int16Array;
  weight: Float32Array;
  /** Coordinates of the remembered contacts, row by row, in `COORDINATE_PART`. */
  points: Int16Array;
  /** What each is weighted with. */
  dual: Float32Array;
  /** Likeness is exp(-gamma distance^2). */
  gamma: number;
  /** Added to every answer, shares of a stride. */
  offset: number;
  /** Distance to the nearest remembered contact that 95 % of the contacts of left-out runners stay within. */
  usual: number;
}

/** An axis' numbers are whole ones of this many a unit; so are coordinates. */
export const AXIS_PART = 32000;
export const COORDINATE_PART = 4000;

export interface KernelAnswer {
  /** Share of a stride after the shape's anchor. */
  touchdown: number;
  /** Distance to the nearest remembered contact beside what is usual for a new runner. */
  novelty: number;
}

/**
 * Coordinates of a shape.
 * @param shape whole numbers, as `stride-shape.ts` makes them
 * @returns one number an axis
 */
export function coordinates(model: KernelModel, shape: Int16Array): Float64Array {
  const { numbers, centre, scale, axes, weight } = model;
  const z = new Float64Array(numbers);
  for (let i = 0; i < numbers; i++) z[i] = (shape[i] - centre[i]) / scale[i];
  const out = new Float64Array(weight.length);
  for (let d = 0; d < out.length; d++) {
    let sum = 0;
    for (let i = 0; i < numbers; i++) sum += axes[d * numbers + i] * z[i];
    out[d] = (sum * weight[d]) / AXIS_PART;
  }
  return out;
}

/**
 * Asks the kernel about one contact.
 * @param shape whole numbers, as `stride-shape.ts` makes them
 */
export function askKernel(model: KernelModel, shape: Int16Array): KernelAnswer {
  const { points, dual, gamma, offset, usual } = model;
  const own = coordinates(model, shape).map((coordinate) => coordinate * COORDINATE_PART);
  const width = own.length;
  const part = COORDINATE_PART * COORDINATE_PART;
  let [answer, nearest] = [offset, Number.POSITIVE_INFINITY];
  for (let p = 0; p < dual.length; p++) {
    let squares = 0;
    for (let d = 0; d < width; d++) {
      const apart = points[p * width + d] - own[d];
      squares += apart * apart;
    }
    answer += dual[p] * Math.exp((-gamma / part) * squares);
    if (squares < nearest) nearest = squares;
  }
  return { touchdown: answer, novelty: Math.sqrt(nearest / part) / usual };
}
