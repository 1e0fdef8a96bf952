/** Boosted trees against ones that can be followed by hand, and against another library on a published function. */
import { describe, expect, it } from 'vitest';
import { askBoosted, STEP_PART } from '../../../dsp/learned/boosted.ts';
import { type BoostingOptions, growBoosted } from '../../../dsp/learned/grow-boosted.ts';
import type { Lesson } from '../../../dsp/learned/growing-trees.ts';
import { LEAF, leafOf } from '../../../dsp/learned/trees.ts';
import { treesOf } from '../../helpers/learned.ts';
import { uniform } from '../../helpers/random.ts';

describe('asking boosted trees', () => {
  it('adds the steps of all trees to the start', () => {
    const leaf = (touchdown: number, toe_off: number) => [LEAF, touchdown * STEP_PART, toe_off * STEP_PART] as const;
    // The first tree asks number 1: up to 10 left. The second is one leaf.
    const trees = treesOf([0, 3], [[1, 10, 2], leaf(0.01, 0.02), leaf(-0.01, 0.03), leaf(0.001, -0.002)]);
    const boosted = { start: { touchdown: 0.1, toe_off: 0.3 }, trees };
    const low = askBoosted(boosted, Int16Array.of(0, 10));
    expect([low.touchdown, low.toe_off]).toEqual([expect.closeTo(0.111, 12), expect.closeTo(0.318, 12)]);
    const high = askBoosted(boosted, Int16Array.of(0, 11));
    expect([high.touchdown, high.toe_off]).toEqual([expect.closeTo(0.091, 12), expect.closeTo(0.328, 12)]);
  });
});

/** Ten contacts with number 0 low, ten with it high; number 1 is the same in all. */
const TWO_KINDS: Lesson = {
  shapes: Array.from({ length: 20 }, (_, i) => Int16Array.of(i < 10 ? i : 100 + i, 7)),
  touchdown: Float64Array.from({ length: 20 }, (_, i) => (i < 10 ? 0.01 : -0.02)),
  toe_off: Float64Array.from({ length: 20 }, (_, i) => (i < 10 ? 0.3 : 0.25)),
};
const ALL: BoostingOptions = { trees: 3, depth: 1, rate: 0.5, leaf: 10, seen: 1, tried: 20 };

describe('growing boosted trees', () => {
  it('each tree mends its part of what is left wrong', () => {
    const boosted = growBoosted(TWO_KINDS, ALL, uniform(1));
    // Means -0.005 and 0.275; half of what is left each time, so an eighth is left of 0.015 and 0.025 after three.
    const low = askBoosted(boosted, Int16Array.of(3, 7));
    expect(low.touchdown).toBeCloseTo(0.01 - 0.015 / 8, 5);
    expect(low.toe_off).toBeCloseTo(0.3 - 0.025 / 8, 5);
    const high = askBoosted(boosted, Int16Array.of(115, 7));
    expect(high.touchdown).toBeCloseTo(-0.02 + 0.015 / 8, 5);
    expect([...boosted.trees.roots]).toEqual([0, 3, 6]);
    expect(boosted.trees.threshold[0]).toBe(9);
  });

  it('asks no more often on the way to a leaf than it may, and leaves no leaf with too few of the contacts that a tree sees', () => {
    const one = (options: Partial<BoostingOptions>) =>
      growBoosted(TWO_KINDS, { ...ALL, trees: 1, ...options }, uniform(2));
    expect(one({ leaf: 11 }).trees.feature).toHaveLength(1);
    expect(one({ depth: 0 }).trees.feature).toHaveLength(1);
    // Nothing is left to be told apart below the first question.
    expect(one({ leaf: 1, depth: 4 }).trees.feature).toHaveLength(3);
    // Of some eight contacts that a tree sees no two leaves of six can be made.
    expect(one({ leaf: 6, seen: 0.4 }).trees.feature).toHaveLength(1);
  });

  it('the same chance grows the same trees, another one others', () => {
    const grown = (seed: number) => growBoosted(TWO_KINDS, { ...ALL, leaf: 2, seen: 0.5, depth: 2 }, uniform(seed));
    expect(grown(5)).toEqual(grown(5));
    expect(grown(5)).not.toEqual(grown(6));
  });

  it('reaches what another library reaches on the function of Friedman', () => {
    const random = uniform(31);
    const draw = (n: number) =>
      Array.from({ length: n }, () => Int16Array.from({ length: 10 }, () => Math.floor(10000 * random())));
    const [shapes, strangers] = [draw(600), draw(2000)];
    // Friedman JH (1991) Multivariate adaptive regression splines. Ann Stat 19:1, doi 10.1214/aos/1176347963, equation 61; a hundredth of it.
    const truth = (shape: Int16Array): number => {
      const [a, b, c, d, e] = Array.from(shape, (v) => v / 10000);
      return (10 * Math.sin(Math.PI * a * b) + 20 * (c - 0.5) ** 2 + 10 * d + 5 * e) / 100;
    };
    const values = Float64Array.from(shapes, truth);
    const options = { trees: 400, depth: 3, rate: 0.1, leaf: 5, seen: 0.5, tried: 0.3 };
    const boosted = growBoosted({ shapes, touchdown: values, toe_off: values }, options, random);
    const squares = strangers.map((shape) => (askBoosted(boosted, shape).toe_off - truth(shape)) ** 2);
    const rms = Math.sqrt(squares.reduce((a, b) => a + b) / squares.length);
    // scikit-learn 1.2.1 on the same numbers, GradientBoostingRegressor(n_estimators=400, max_depth=3, learning_rate=0.1, min_samples_leaf=5,
    // subsample=0.5, max_features=0.3), random_state 0 to 9: 0.0119 +- 0.0004. The mean of all would be off by 0.0487.
    expect(rms).toBeLessThan(0.0119 + 3 * 0.0004);
    for (const root of boosted.trees.roots)
      expect(boosted.trees.feature[leafOf(boosted.trees, root, shapes[0])]).toBe(LEAF);
  });
});
