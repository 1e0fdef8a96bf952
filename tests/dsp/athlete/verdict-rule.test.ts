import { describe, expect, test } from 'vitest';
import { PRESENT_BLOCK, simulateBlocks } from './verdict/simulate-blocks.ts';
import { PRESENT, type SimulatedAthlete, simulateEvenings } from './verdict/simulate-evenings.ts';

/** Share of the variance between days: what is published leads to expect 0.4; both sides of it. */
const athlete = (sessions: number, repetitions: number, between_share: number): SimulatedAthlete => ({
  sessions,
  repetitions,
  typical_error: 2.5,
  between_share,
});

describe('the word after a repetition', () => {
  test.each([
    [athlete(1, 3, 0.3)],
    [athlete(2, 3, 0.3)],
    [athlete(4, 3, 0.15)],
    [athlete(4, 3, 0.3)],
    [athlete(10, 4, 0.3)],
  ])('tells a change on at most 5 % of evenings of six repetitions when there was none: %o', (who) => {
    expect(simulateEvenings(PRESENT, who, 0, 250, 1).evenings).toBeLessThanOrEqual(0.05);
  });

  /** The narrowest case, so counted over enough evenings that chance leaves little room: one standard error is 0.5 %. */
  test.each([[athlete(4, 3, 0.4)], [athlete(8, 3, 0.4)]])('nor more where two fifths lie between days: %o', (who) => {
    expect(simulateEvenings(PRESENT, who, 0, 2000, 1).evenings).toBeLessThanOrEqual(0.05);
  });

  test('sees a change of two typical errors on three of five evenings, of three on nine of ten', () => {
    const who = athlete(10, 4, 0.3);
    expect(simulateEvenings(PRESENT, who, -2, 150, 2).told_by[5]).toBeGreaterThan(0.6);
    expect(simulateEvenings(PRESENT, who, -3, 150, 2).told_by[5]).toBeGreaterThan(0.9);
  });

  test('grows with what is known and with every repetition', () => {
    const few = simulateEvenings(PRESENT, athlete(2, 3, 0.3), -2, 150, 4).told_by;
    const many = simulateEvenings(PRESENT, athlete(10, 4, 0.3), -2, 150, 4).told_by;
    expect(few[5]).toBeLessThan(many[5] - 0.2);
    expect(many[0]).toBeLessThan(many[2] - 0.2);
  });
});

describe('the word on a block of sixteen sessions', () => {
  test.each([0.15, 0.4])(
    'tells at most 5 % of those who never changed a change, over all sixteen looks, %d of the variance between days',
    (between_share) => {
      const who = athlete(6, 3, between_share);
      const told = simulateBlocks(PRESENT_BLOCK, who, { typical_errors: 0, at_once: true }, 250, 1);
      expect(told[15]).toBeLessThanOrEqual(0.05);
    },
  );

  test('tells a change of two typical errors to nine of ten by the end, at once or bit by bit', () => {
    for (const at_once of [true, false]) {
      const told = simulateBlocks(PRESENT_BLOCK, athlete(6, 3, 0.15), { typical_errors: -2, at_once }, 40, 2);
      expect(told[15]).toBeGreaterThan(0.85);
    }
  });
});
