import { describe, expect, test } from 'vitest';
import { agreement, repeatedAgreement } from '../../../dsp/agreement/index.ts';
import { normal } from '../../helpers/random.ts';

describe('repeatedAgreement', () => {
  test('with one pair a subject has the bias and SD of independent pairs', () => {
    const d = [3, -1, 4, 1, -5, 9, 2, -6];
    const repeated = repeatedAgreement(d.map((v) => [v]));
    const single = agreement(
      d,
      d.map(() => 0),
    );
    expect(repeated.bias.value).toBeCloseTo(single.bias.value, 12);
    expect(repeated.sd).toBeCloseTo(single.sd, 12);
    expect(repeated.bias.low).toBeCloseTo(single.bias.low, 10);
  });

  test('separates the scatter between and within subjects', () => {
    const z = normal(11);
    const groups = Array.from({ length: 400 }, () => {
      const own = 2 * z();
      return Array.from({ length: 5 }, () => 1 + own + 3 * z());
    });
    const a = repeatedAgreement(groups);
    expect(a.bias.value).toBeCloseTo(1, 0);
    expect(Math.abs(a.sd_between - 2)).toBeLessThan(0.25);
    expect(Math.abs(a.sd_within - 3)).toBeLessThan(0.15);
  });

  test('its intervals hold the true limit in about 95 % of studies, where naive pooling fails', () => {
    const z = normal(3);
    const truth = 1.96 * Math.hypot(2, 3);
    let [covered, naive] = [0, 0];
    const studies = 1500;
    for (let s = 0; s < studies; s++) {
      const groups = Array.from({ length: 12 }, (_, i) => {
        const own = 2 * z();
        return Array.from({ length: 10 + (i % 5) * 5 }, () => own + 3 * z());
      });
      const { upper_limit } = repeatedAgreement(groups);
      if (upper_limit.low <= truth && truth <= upper_limit.high) covered++;
      const flat = groups.flat();
      const pooled = agreement(
        flat,
        flat.map(() => 0),
      ).upper_limit;
      if (pooled.low <= truth && truth <= pooled.high) naive++;
    }
    expect(covered / studies).toBeGreaterThan(0.93);
    expect(covered / studies).toBeLessThan(0.98);
    expect(naive / studies).toBeLessThan(0.8);
  });
});
