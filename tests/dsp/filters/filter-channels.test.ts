import { describe, expect, test } from 'vitest';
import { designHighPass, designLowPass } from '../../../dsp/filters/design.ts';
import { filterChannels, filterForward, filterForwardBackward } from '../../../dsp/filters/filter-forward-backward.ts';
import { filterChannelSegments, filterSegments } from '../../../dsp/filters/filter-segments.ts';
import type { Section } from '../../../dsp/filters/section.ts';
import { expectColumnsClose } from '../../helpers/close.ts';
import { normal } from '../../helpers/random.ts';
import { refusalOf } from '../../helpers/told.ts';

function signal(length: number, seed: number): Float64Array {
  const noise = normal(seed);
  return Float64Array.from({ length }, (_, i) => 9.81 + 5 * Math.sin(i / 40) + 2 * noise());
}

/** One forward pass sample by sample from the definition of a section, without any of the ways in which ours is made fast. */
function plainForward(sections: readonly Section[], x: Float64Array): Float64Array {
  let signalNow = [...x];
  for (const { gain, b1, a1, a2 } of sections) {
    const out: number[] = [];
    const [level, rest] = [signalNow[0], (signalNow[0] * gain * (2 + b1)) / (1 + a1 + a2)];
    signalNow.forEach((value, i) => {
      const x1 = signalNow[i - 1] ?? level;
      const x2 = signalNow[i - 2] ?? level;
      out.push(gain * (value + b1 * x1 + x2) - a1 * (out[i - 1] ?? rest) - a2 * (out[i - 2] ?? rest));
    });
    signalNow = out;
  }
  return Float64Array.from(signalNow);
}

describe('a cascade', () => {
  test.each([2, 4, 6, 8, 10])('of order %i gives what its definition gives, whatever the length', (order) => {
    for (const sections of [designLowPass(30, 500, order), designHighPass(8, 500, order)]) {
      // Around the ends of the blocks that it works in, and odd as well as even.
      for (const length of [1, 2, 3, 1023, 1024, 1025, 2048, 2051]) {
        const x = signal(length, length);
        expectColumnsClose(filterForward(sections, x), plainForward(sections, x), 9);
      }
    }
  });
});

describe('filterChannels', () => {
  test.each([2, 4, 6])(
    'gives for each of several channels what it gives for that channel alone (order %i)',
    (order) => {
      const sections = designLowPass(20, 1000, order);
      for (const count of [1, 2, 3, 6]) {
        const channels = Array.from({ length: count }, (_, c) => signal(1500 + count, c));
        const together = filterChannels(sections, channels);
        channels.forEach((x, c) => {
          expectColumnsClose(together[c], filterForwardBackward(sections, x), 12);
        });
      }
    },
  );

  test('leaves its input as it is and writes into what it is given', () => {
    const channels = [signal(100, 1), signal(100, 2), signal(100, 3)];
    const before = channels.map((x) => x.slice());
    const into = channels.map(() => new Float64Array(100));
    const sections = designLowPass(20, 1000);
    filterChannels(sections, channels, into);
    expect(channels).toEqual(before);
    expect(into).toEqual(filterChannels(sections, channels));
  });

  test('gives nothing for nothing', () => {
    expect(filterChannels(designLowPass(20, 1000), [])).toEqual([]);
  });

  test.each([0, 1, 700, 1498, 1499])('refuses a channel whose sample %i is missing and says which', (index) => {
    const broken = signal(1500, 2);
    broken[index] = index % 2 === 0 ? Number.NaN : Number.POSITIVE_INFINITY;
    for (const order of [2, 4]) {
      const refusal = refusalOf(() => filterChannels(designLowPass(20, 1000, order), [signal(1500, 1), broken]));
      expect(refusal).toMatch(new RegExp(`sample ${index} is ${broken[index]}`));
    }
  });
});

describe('filterChannelSegments', () => {
  const sections = designLowPass(20, 500);

  test.each(['the same gaps', 'gaps of their own'])('filters channels with %s as if each stood alone', (which) => {
    const channels = [1, 2, 3].map((seed) => signal(300, seed));
    channels.forEach((x, c) => {
      x.fill(Number.NaN, 0, 3);
      x.fill(Number.NaN, 120 + (which === 'the same gaps' ? 0 : c), 130);
      x.fill(Number.NaN, 296);
    });
    const together = filterChannelSegments(sections, channels);
    channels.forEach((x, c) => {
      const alone = filterSegments(sections, x);
      expect([...together[c]].map(Number.isNaN)).toEqual([...x].map(Number.isNaN));
      expectColumnsClose(together[c].filter(Number.isFinite), alone.filter(Number.isFinite), 12);
    });
  });
});
