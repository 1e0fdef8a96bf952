import { describe, expect, test } from 'vitest';
import {
  athleteBaseline,
  type BaselineValue,
  judgeRepetition,
  variationComponents,
} from '../../../dsp/athlete/index.ts';
import { robustCentre, robustSpread } from '../../../dsp/numeric/robust.ts';
import { normal } from '../../helpers/random.ts';

const values = (numbers: number[], each = 3): BaselineValue[] =>
  numbers.map((value, i) => ({ value, session: Math.floor(i / each), day: 3 * Math.floor(i / each), contacts: 12 }));

describe('athleteBaseline', () => {
  test('one repetition rests on the published variation alone, and is provisional', () => {
    const one = (contacts: number) =>
      athleteBaseline([{ value: 120, session: 1, day: 8, contacts }], { quantity: 'contact_time_ms', day: 10 })!;
    // Meyers et al. 2015, Pediatr Exerc Sci 27:419-426: CV 4.8 % for one step, 3.8 % for the mean of two.
    expect(one(1).typical_error / 120).toBeCloseTo(0.048, 3);
    expect(one(2).typical_error / 120).toBeCloseTo(0.038, 3);
    expect(one(12)).toMatchObject({ provisional: true, centre: 120, n: 1 });
    expect(one(12).variation_source).toContain('Meyers');
  });

  test('a quantity whose variation nobody published has no normal before six repetitions', () => {
    const quantity = 'foot_progression_deg';
    expect(athleteBaseline(values([8, 9, 7, 8, 9]), { quantity, day: 10 })).toBeNull();
    expect(athleteBaseline(values([8, 9, 7, 8, 9, 7]), { quantity, day: 10 })).not.toBeNull();
  });

  test('from six repetitions on it is the athlete’s own', () => {
    const b = athleteBaseline(values([118, 121, 120, 119, 122, 120]), { quantity: 'contact_time_ms', day: 10 })!;
    expect([b.provisional, b.variation_source, b.n, b.sessions]).toEqual([false, 'own', 6, 2]);
    expect(b.typical_error).toBeLessThan(3);
    expect(b.low).toBeCloseTo(b.centre - b.typical_error, 9);
  });

  test('normal follows the athlete: four weeks count half, three while growing', () => {
    const two = (day: number) =>
      [0, 0, day, day].map((d, i) => ({ value: i < 2 ? 120 : 110, session: d, day: d, contacts: 12 }));
    const grown = athleteBaseline(two(28), { quantity: 'contact_time_ms', day: 28 })!;
    // Weights 1/2 and 1: (120 / 2 + 110) / 1.5.
    expect(grown.centre).toBeCloseTo(113.33, 1);
    const growing = athleteBaseline(two(21), { quantity: 'contact_time_ms', day: 21, adolescent: true })!;
    expect(growing.centre).toBeCloseTo(113.33, 1);
    expect([grown.half_life_days, growing.half_life_days]).toEqual([28, 21]);
  });

  test('who gets better all the time does not vary from day to day for that', () => {
    const z = normal(3);
    const scatter = Array.from({ length: 32 }, () => 1.5 * z());
    const still = athleteBaseline(
      values(
        scatter.map((e) => 120 + e),
        4,
      ),
      { quantity: 'contact_time_ms', day: 30 },
    )!;
    const better = athleteBaseline(
      values(
        scatter.map((e, i) => 120 - Math.floor(i / 4) + e),
        4,
      ),
      { quantity: 'contact_time_ms', day: 30 },
    )!;
    expect(better.typical_error / still.typical_error).toBeLessThan(1.1);
  });

  test('one absurd repetition moves neither centre nor variation much', () => {
    const clean = [118, 121, 120, 119, 122, 120, 121, 119, 118, 122, 120];
    const b = athleteBaseline(values(clean), { quantity: 'contact_time_ms', day: 20 })!;
    const spoilt = athleteBaseline(values([...clean, 260]), { quantity: 'contact_time_ms', day: 20 })!;
    expect(Math.abs(spoilt.centre - b.centre)).toBeLessThan(0.5);
    expect(spoilt.typical_error).toBeLessThan(2 * b.typical_error);
  });

  test('expires sooner for a growing athlete', () => {
    const old = values([118, 121, 120, 119, 122, 120]);
    expect(athleteBaseline(old, { quantity: 'contact_time_ms', day: 90, adolescent: true })).toBeNull();
    const adult = athleteBaseline(old, { quantity: 'contact_time_ms', day: 90 })!;
    expect([adult.n, adult.expired]).toEqual([6, 0]);
  });

  test('a smallest worthwhile change above the noise is what a flag must exceed', () => {
    const b = athleteBaseline(values([118, 121, 120, 119, 122, 120]), {
      quantity: 'contact_time_ms',
      day: 10,
      smallest_worthwhile_change: 20,
    })!;
    expect(b.flag_from).toBe(20);
    expect(judgeRepetition(b, [139]).beyond).toBeNull();
    expect(judgeRepetition(b, [141]).beyond).toBe('above');
  });

  test('equal values do not make the next hundredth a flag', () => {
    const b = athleteBaseline(values([5.2, 5.2, 5.2, 5.2, 5.2, 5.2]), { quantity: 'time_s', day: 10 })!;
    expect(b.typical_error).toBeGreaterThan(0.01);
    expect(judgeRepetition(b, [5.22]).beyond).toBeNull();
    expect(judgeRepetition(b, [5.6]).beyond).toBe('above');
  });

  test('says nothing without values', () => {
    expect(athleteBaseline([], { quantity: 'contact_time_ms', day: 0 })).toBeNull();
    const missing = [{ value: Number.NaN, session: 1, day: 0 }];
    expect(athleteBaseline(missing, { quantity: 'contact_time_ms', day: 0 })).toBeNull();
  });
});

describe('judgeRepetition', () => {
  test('names the rule: this one alone, or today’s repetitions together', () => {
    const z = normal(9);
    const b = athleteBaseline(
      values(
        Array.from({ length: 24 }, () => 120 + 3 * z()),
        4,
      ),
      {
        quantity: 'contact_time_ms',
        day: 30,
      },
    )!;
    const far = b.centre + 4 * b.typical_error;
    expect(judgeRepetition(b, [far])).toMatchObject({ beyond: 'above', rule: 'repetition' });
    const near = b.centre - 2.2 * b.typical_error;
    expect(judgeRepetition(b, [near])).toMatchObject({ beyond: null, rule: null });
    const third = judgeRepetition(b, [near, near, near]);
    expect(third).toMatchObject({ beyond: 'below', rule: 'today' });
    expect(third.today_high).toBeLessThan(0);
    expect(third.certainty).toBeGreaterThan(0.98);
  });
});

describe('variationComponents', () => {
  test('finds both parts of a known variation', () => {
    const z = normal(21);
    const all: number[] = [];
    const keys: number[] = [];
    for (let s = 0; s < 240; s++) {
      const level = 2 * z();
      for (let i = 0; i < 3 + (s % 3); i++) {
        all.push(50 + level + 3 * z());
        keys.push(s);
      }
    }
    const c = variationComponents(all, keys);
    expect(Math.abs(Math.sqrt(c.within) - 3)).toBeLessThan(0.2);
    expect(Math.abs(Math.sqrt(c.between) - 2)).toBeLessThan(0.3);
  });
});

describe('robust estimates', () => {
  test('are unbiased on normal data of any size', () => {
    const z = normal(5);
    for (const n of [4, 6, 9, 15, 30]) {
      let [spread, centre] = [0, 0];
      for (let r = 0; r < 2000; r++) {
        const x = Array.from({ length: n }, z);
        spread += robustSpread(x) ** 2 / 2000;
        centre += robustCentre(x) / 2000;
      }
      expect(Math.abs(centre)).toBeLessThan(0.05);
      expect(Math.sqrt(spread)).toBeGreaterThan(0.9);
      expect(Math.sqrt(spread)).toBeLessThan(1.05);
    }
  });
});
