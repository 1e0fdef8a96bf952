/** The kernel against a weighted mean made by hand, and against numpy's own linear algebra. */
import { describe, expect, it } from 'vitest';
import { fitKernel, type KernelOptions } from '../../../dsp/learned/fit-kernel.ts';
import { askKernel, AXIS_PART, COORDINATE_PART, coordinates, type KernelModel } from '../../../dsp/learned/kernel.ts';
import { principalAxes } from '../../../dsp/learned/principal-axes.ts';
import { solvePositive } from '../../../dsp/learned/solve-positive.ts';
import { normal, uniform } from '../../helpers/random.ts';
import { pythonWithScipy, runScipy } from '../../helpers/scipy.ts';

/** Two numbers, read as they are: coordinates are the shape less its centre, over its scale, along the axes. */
const SMALL: KernelModel = {
  numbers: 2,
  centre: Float32Array.of(10, -4),
  scale: Float32Array.of(2, 4),
  axes: Int16Array.of(AXIS_PART, 0, 0, AXIS_PART),
  weight: Float32Array.of(1, 0.5),
  points: Int16Array.of(0, 0, COORDINATE_PART, 0),
  dual: Float32Array.of(0.25, -0.5),
  gamma: 0.5,
  offset: 0.125,
  usual: 2,
};

describe('asking the kernel', () => {
  it('coordinates are centred, scaled, turned and weighted', () => {
    expect([...coordinates(SMALL, Int16Array.of(14, 4))]).toEqual([2, 1]);
    const turned = { ...SMALL, axes: Int16Array.of(0, AXIS_PART, AXIS_PART, 0) };
    expect([...coordinates(turned, Int16Array.of(14, 4))]).toEqual([2, 1]);
    expect([...coordinates(turned, Int16Array.of(14, -4))]).toEqual([0, 1]);
  });

  it('the answer is the offset and each remembered contact by its likeness', () => {
    // At coordinates (2, 1): squares 5 from the first point and 2 from the second.
    const { touchdown, novelty } = askKernel(SMALL, Int16Array.of(14, 4));
    expect(touchdown).toBeCloseTo(0.125 + 0.25 * Math.exp(-2.5) - 0.5 * Math.exp(-1), 12);
    expect(novelty).toBeCloseTo(Math.sqrt(2) / 2, 12);
  });

  it('far from all that it knows it says the offset alone, and how far that is', () => {
    const { touchdown, novelty } = askKernel(SMALL, Int16Array.of(10 + 2 * 50, -4));
    expect(touchdown).toBeCloseTo(0.125, 12);
    expect(novelty).toBeCloseTo(49 / 2, 12);
  });

  it('numbers behind those that it reads change nothing', () => {
    expect(askKernel(SMALL, Int16Array.of(14, 4, 999))).toEqual(askKernel(SMALL, Int16Array.of(14, 4)));
  });
});

const random = normal(3);
/** Sixty contacts of four runners: two columns of five and three numbers, each number of a size of its own. */
const SIZES = [2000, 900, 400, 180, 80, 60, 30, 15];
const SHAPES = Array.from({ length: 60 }, () =>
  Int16Array.from(SIZES, (size, i) => Math.round(size * random() + 100 * i)),
);
const TOUCHDOWN = Float64Array.from(SHAPES, (shape) => 0.01 + shape[0] / 1e6 + 0.0005 * random());
const RUNNERS = SHAPES.map((_, i) => `runner ${i % 4}`);
const OPTIONS: KernelOptions = {
  points: 60,
  components: 3,
  narrowness: 0.7,
  own_variance: 0.1,
  runner_variance: 0.05,
  levelling: 0.4,
};
const fitted = (options: Partial<KernelOptions> = {}) =>
  fitKernel(SHAPES, TOUCHDOWN, RUNNERS, [5, 3], { ...OPTIONS, ...options }, uniform(1));

describe('fitting the kernel', () => {
  it('each column counts by its own spread', () => {
    const { centre, scale } = fitted();
    const mean = SHAPES.reduce((sum, shape) => sum + shape[2], 0) / 60;
    expect(centre[2]).toBeCloseTo(mean, 3);
    // The mean over a column's numbers of their standard deviations: one value a column.
    const sdOf = (i: number) => {
      const centre = SHAPES.reduce((sum, shape) => sum + shape[i], 0) / 60;
      return Math.sqrt(SHAPES.reduce((sum, shape) => sum + (shape[i] - centre) ** 2, 0) / 60);
    };
    expect(scale[0]).toBeCloseTo([0, 1, 2, 3, 4].reduce((sum, i) => sum + sdOf(i), 0) / 5, 2);
    expect(scale[4]).toBe(scale[0]);
    expect(scale[7]).toBeCloseTo([5, 6, 7].reduce((sum, i) => sum + sdOf(i), 0) / 3, 3);
  });

  it('remembers at most so many contacts, evenly taken', () => {
    const { dual, points } = fitted({ points: 15 });
    expect(dual).toHaveLength(15);
    expect(points).toHaveLength(15 * 3);
    const every = fitKernel(
      SHAPES.filter((_, i) => i % 4 === 0),
      TOUCHDOWN.filter((_, i) => i % 4 === 0),
      RUNNERS.filter((_, i) => i % 4 === 0),
      [5, 3],
      { ...OPTIONS, points: 15 },
      uniform(1),
    );
    expect(fitted({ points: 15 })).toEqual(every);
  });

  it('with hardly any error of a contact’s own it says what it was taught; with much it says the mean', () => {
    const near = fitted({ own_variance: 1e-3, runner_variance: 0, components: 8 });
    const far = fitted({ own_variance: 1e6 });
    const mean = TOUCHDOWN.reduce((a, b) => a + b) / 60;
    for (const [i, shape] of SHAPES.entries()) {
      expect(Math.abs(askKernel(near, shape).touchdown - TOUCHDOWN[i])).toBeLessThan(2e-4);
      expect(askKernel(far, shape).touchdown).toBeCloseTo(mean, 5);
    }
  });

  it('what a runner’s contacts share counts less, the more of it is taken for chance', () => {
    // One runner's contacts are all late by the same: with a variance of runners less of it is believed.
    const late = Float64Array.from(TOUCHDOWN, (value, i) => value + (i % 4 === 0 ? 0.02 : 0));
    const learnt = (runner_variance: number) => {
      const model = fitKernel(SHAPES, late, RUNNERS, [5, 3], { ...OPTIONS, runner_variance }, uniform(1));
      const own = SHAPES.filter((_, i) => i % 4 === 0).map((shape) => askKernel(model, shape).touchdown);
      return own.reduce((a, b) => a + b) / own.length;
    };
    expect(learnt(5)).toBeLessThan(learnt(0) - 0.001);
  });
});

describe('linear algebra', () => {
  it('solves by hand: [[4, 2], [2, 3]] x = [2, 5] is x = [-0.5, 2]', () => {
    const x = solvePositive(Float64Array.of(4, 2, 2, 3), [2, 5]);
    expect(x[0]).toBeCloseTo(-0.5, 14);
    expect(x[1]).toBeCloseTo(2, 14);
  });

  it('principal axes of points on two lines: the longer first, largest number positive', () => {
    const rows = [
      [3, 0, 0],
      [-3, 0, 0],
      [0, 0, -1],
      [0, 0, 1],
    ].map((row) => Float64Array.from(row));
    const { axes, spreads } = principalAxes(rows, 2, uniform(2));
    expect([...axes].map((v) => Math.round(1e6 * v) / 1e6 + 0)).toEqual([1, 0, 0, 0, 0, 1]);
    expect(spreads[0]).toBeCloseTo(Math.sqrt(18 / 4), 9);
    expect(spreads[1]).toBeCloseTo(Math.sqrt(2 / 4), 9);
  });
});

describe.skipIf(!pythonWithScipy())('against numpy (Debian python3-scipy)', () => {
  it('axes are those of its singular value decomposition, spreads its singular values over the root of n', () => {
    const z = normal(8);
    const sizes = [9, 5, 2, 1, 0.5, 0.2];
    const rows = Array.from({ length: 80 }, () => Float64Array.from(sizes, (size) => size * z()));
    const centre = sizes.map((_, i) => rows.reduce((sum, row) => sum + row[i], 0) / rows.length);
    const centred = rows.map((row) => row.map((value, i) => value - centre[i]));
    const { axes, spreads } = principalAxes(centred, 3, uniform(4));
    const { v, s } = runScipy<{ v: number[][]; s: number[] }>(
      'u, s, v = np.linalg.svd(np.array(inputs))\nresult = {"v": v[:3], "s": s[:3] / np.sqrt(len(inputs))}',
      centred.map((row) => [...row]),
    );
    for (let d = 0; d < 3; d++) {
      expect(spreads[d]).toBeCloseTo(s[d], 6);
      const along = v[d].reduce((sum, value, i) => sum + value * axes[d * 6 + i], 0);
      expect(Math.abs(along)).toBeCloseTo(1, 6);
    }
  });

  it('its solution of a positive definite system is ours to twelve digits', () => {
    const z = normal(5);
    const n = 40;
    const half = Array.from({ length: n }, () => Array.from({ length: n }, () => z()));
    const matrix = half.map((a, i) => half.map((b, j) => a.reduce((sum, v, k) => sum + v * b[k], i === j ? 1 : 0)));
    const b = Array.from({ length: n }, () => z());
    const theirs = runScipy<number[]>('result = np.linalg.solve(np.array(inputs["a"]), np.array(inputs["b"]))', {
      a: matrix,
      b,
    });
    const ours = solvePositive(Float64Array.from(matrix.flat()), b);
    for (const [i, value] of theirs.entries()) expect(Math.abs(ours[i] - value)).toBeLessThan(1e-12 * n);
  });

  it('the fitted kernel says what kernel ridge regression by numpy says, within its 16 bits', () => {
    const model = fitted();
    const asked = Array.from({ length: 20 }, (_, i) => SHAPES[i].map((value) => value + 25));
    const theirs = runScipy<number[]>(
      `
x = np.array(inputs["shapes"], float); y = np.array(inputs["touchdown"]); runners = np.array(inputs["runners"])
centre = x.mean(0); sd = x.std(0)
scale = np.concatenate([np.full(5, sd[:5].mean()), np.full(3, sd[5:].mean())])
z = (x - centre) / scale
v = np.linalg.svd(z, full_matrices=False)[2][:3]
spread = np.sqrt(((z @ v.T) ** 2).mean(0))
weight = (spread / spread[0]) ** -inputs["levelling"] / spread[0]
place = lambda rows: ((np.array(rows, float) - centre) / scale) @ v.T * weight
p = place(x)
squares = ((p[:, None] - p[None]) ** 2).sum(-1)
gamma = inputs["narrowness"] / np.median(squares[squares > 0])
k = np.exp(-gamma * squares) + inputs["runner_variance"] * (runners[:, None] == runners[None]) + inputs["own_variance"] * np.eye(len(x))
dual = np.linalg.solve(k, y - y.mean())
q = place(inputs["asked"])
result = y.mean() + np.exp(-gamma * ((q[:, None] - p[None]) ** 2).sum(-1)) @ dual
`,
      {
        ...OPTIONS,
        shapes: SHAPES.map((shape) => [...shape]),
        touchdown: [...TOUCHDOWN],
        runners: RUNNERS,
        asked: asked.map((shape) => [...shape]),
      },
    );
    for (const [i, shape] of asked.entries()) {
      expect(Math.abs(askKernel(model, shape).touchdown - theirs[i])).toBeLessThan(2e-5);
    }
  });
});
