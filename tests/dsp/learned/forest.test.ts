/** Trees against ones small enough to be followed by hand. */
import { describe, expect, it } from 'vitest';
import { askForest, LEAF_PART } from '../../../dsp/learned/forest.ts';
import { growForest } from '../../../dsp/learned/grow-forest.ts';
import type { Lesson } from '../../../dsp/learned/growing-trees.ts';
import { LEAF, leafOf } from '../../../dsp/learned/trees.ts';
import { treesOf } from '../../helpers/learned.ts';
import { uniform } from '../../helpers/random.ts';

/** A leaf of touchdown and toe-off, shares of a stride, as it lies in a forest's columns. */
const leaf = (touchdown: number, toe_off: number) => [LEAF, touchdown * LEAF_PART, toe_off * LEAF_PART] as const;

describe('asking trees', () => {
  // Number 1 up to 10 goes left; behind it number 0 up to -5 goes left.
  const tree = treesOf([0], [[1, 10, 4], [0, -5, 2], leaf(0.01, 0.2), leaf(0.02, 0.3), leaf(-0.03, 0.4)]);
  const answers: [number[], number, number][] = [
    [[-5, 10], 0.01, 0.2],
    [[-4, 10], 0.02, 0.3],
    [[-5, 11], -0.03, 0.4],
    [[999, 11], -0.03, 0.4],
  ];
  it.each(answers)('shape %j ends in its leaf: a value equal to the threshold goes left', (shape, down, off) => {
    const answer = askForest(tree, Int16Array.from(shape));
    expect(answer.touchdown).toBeCloseTo(down, 12);
    expect(answer.toe_off).toBeCloseTo(off, 12);
    expect([answer.touchdown_sd, answer.toe_off_sd]).toEqual([0, 0]);
  });

  it('several trees say their mean, and their standard deviation over n', () => {
    // Outputs 0.01, 0.03 and 0.05: mean 0.03, sd sqrt((0.02^2 + 0 + 0.02^2) / 3). Outputs 0.2, 0.2, 0.5: mean 0.3, sd sqrt(0.02).
    const three = treesOf([0, 1, 2], [leaf(0.01, 0.2), leaf(0.03, 0.2), leaf(0.05, 0.5)]);
    const { touchdown, toe_off, touchdown_sd, toe_off_sd } = askForest(three, Int16Array.of(0));
    expect(touchdown).toBeCloseTo(0.03, 12);
    expect(touchdown_sd).toBeCloseTo(Math.sqrt(0.0008 / 3), 9);
    expect(toe_off).toBeCloseTo(0.3, 12);
    expect(toe_off_sd).toBeCloseTo(Math.sqrt(0.02), 9);
  });
});

/** Ten contacts with number 0 low, ten with it high; number 1 is the same in all. */
const TWO_KINDS: Lesson = {
  shapes: Array.from({ length: 20 }, (_, i) => Int16Array.of(i < 10 ? i : 100 + i, 7)),
  touchdown: Float64Array.from({ length: 20 }, (_, i) => (i < 10 ? 0.01 : -0.02)),
  toe_off: Float64Array.from({ length: 20 }, (_, i) => (i < 10 ? 0.3 : 0.25)),
};

describe('growing trees', () => {
  it('parts two kinds at a number that tells them apart, never at one that does not, whatever the chance', () => {
    for (const seed of [1, 2, 3]) {
      const forest = growForest(TWO_KINDS, { trees: 8, leaf: 10, tried: 20 }, uniform(seed));
      expect(forest.roots).toHaveLength(8);
      for (const root of forest.roots) {
        expect(forest.feature[root]).toBe(0);
        expect(forest.threshold[root]).toBeGreaterThanOrEqual(9);
        expect(forest.threshold[root]).toBeLessThan(110);
      }
      const low = askForest(forest, Int16Array.of(3, 7));
      const high = askForest(forest, Int16Array.of(115, 7));
      expect([low.touchdown, low.toe_off]).toEqual([0.01, 0.3]);
      expect([high.touchdown, high.toe_off]).toEqual([-0.02, 0.25]);
      expect(Math.max(low.touchdown_sd, high.toe_off_sd)).toBeLessThan(1e-6);
    }
  });

  it('stays one leaf with the mean of all where two leaves would be too small', () => {
    const forest = growForest(TWO_KINDS, { trees: 2, leaf: 11, tried: 20 }, uniform(1));
    expect([...forest.feature]).toEqual([LEAF, LEAF]);
    const { touchdown, toe_off } = askForest(forest, Int16Array.of(3, 7));
    expect(touchdown).toBeCloseTo(-0.005, 5);
    expect(toe_off).toBeCloseTo(0.275, 5);
  });

  it('stays one leaf where nothing differs in what is to be told, or in what it is told by', () => {
    const one = { ...TWO_KINDS, touchdown: new Float64Array(20).fill(0.01), toe_off: new Float64Array(20).fill(0.3) };
    expect([...growForest(one, { trees: 1, leaf: 1, tried: 20 }, uniform(1)).feature]).toEqual([LEAF]);
    const blind = { ...TWO_KINDS, shapes: TWO_KINDS.shapes.map(() => Int16Array.of(5, 7)) };
    expect([...growForest(blind, { trees: 1, leaf: 1, tried: 20 }, uniform(1)).feature]).toEqual([LEAF]);
  });

  it('cuts where toe-off alone differs, since both outputs count', () => {
    const lesson = { ...TWO_KINDS, touchdown: new Float64Array(20).fill(0.01) };
    const forest = growForest(lesson, { trees: 1, leaf: 10, tried: 20 }, uniform(4));
    expect(askForest(forest, Int16Array.of(3, 7)).toe_off).toBe(0.3);
    expect(askForest(forest, Int16Array.of(115, 7)).toe_off).toBe(0.25);
  });

  it('no leaf holds fewer contacts than it may, and every contact ends in one', () => {
    const random = uniform(9);
    const shapes = Array.from({ length: 300 }, () => Int16Array.from({ length: 6 }, () => Math.round(2000 * random())));
    const lesson = {
      shapes,
      touchdown: Float64Array.from(shapes, (shape) => shape[2] / 1e5),
      toe_off: Float64Array.from(shapes, (shape) => 0.2 + shape[4] / 1e4),
    };
    const forest = growForest(lesson, { trees: 5, leaf: 7, tried: 1 }, random);
    for (const root of forest.roots) {
      const held = new Map<number, number>();
      for (const shape of shapes) {
        const node = leafOf(forest, root, shape);
        held.set(node, (held.get(node) ?? 0) + 1);
      }
      expect(Math.min(...held.values())).toBeGreaterThanOrEqual(7);
      expect([...held.values()].reduce((a, b) => a + b)).toBe(300);
      expect(held.size).toBeGreaterThan(10);
    }
    // What was learned is told of contacts that were not seen: far nearer than the mean of all would be.
    const errors = Array.from({ length: 200 }, () => {
      const shape = Int16Array.from({ length: 6 }, () => Math.round(2000 * random()));
      return askForest(forest, shape).toe_off - (0.2 + shape[4] / 1e4);
    });
    const rms = Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length);
    expect(rms).toBeLessThan(0.2 / Math.sqrt(12) / 2);
  });

  it('the same chance grows the same trees, another one others', () => {
    const lesson = { ...TWO_KINDS, toe_off: Float64Array.from({ length: 20 }, (_, i) => 0.2 + 0.001 * i * i) };
    const grown = (seed: number) => growForest(lesson, { trees: 3, leaf: 2, tried: 1 }, uniform(seed));
    expect(grown(5)).toEqual(grown(5));
    expect(grown(5)).not.toEqual(grown(6));
  });
});
