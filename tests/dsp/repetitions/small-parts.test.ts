/** Parts of a repetition's result, each by hand. */
import { describe, expect, it } from 'vitest';
import { limitToRate } from '../../../dsp/repetitions/contact-row.ts';
import { contactIntervals } from '../../../dsp/repetitions/contact-intervals.ts';
import { firstMovement, motionLevel } from '../../../dsp/repetitions/first-movement.ts';
import { fillPhases } from '../../../dsp/repetitions/phases.ts';
import { summariseQuantity, summariseRepetition } from '../../../dsp/repetitions/summary.ts';
import { DEFAULT_SETTINGS as S } from '../../../dsp/settings/settings.ts';
import type { SensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { contactRows } from '../../helpers/contact-rows.ts';

const run = (n: number, contact_s = 0.1, step_s = 0.23): Contact[] =>
  contactRows(
    Array.from({ length: n }, (_, i) => ({
      side: i % 2 === 0 ? 'left' : 'right',
      touchdown_s: 1 + step_s * i,
      toe_off_s: 1 + contact_s + step_s * i,
    })),
  );

describe('summariseQuantity', () => {
  const rows = (...values: (number | null)[]): Contact[] =>
    run(values.length).map((row, i) => ({ ...row, contact_time_ms: values[i], contact_time_ms_u: 2 }));

  it('is mean, SD of n - 1 and count of what was measured', () => {
    const made = summariseQuantity(rows(100, null, 104, 108), 'contact_time_ms')!;
    expect(made).toMatchObject({ mean: 104, n: 3 });
    expect(made.sd).toBeCloseTo(4, 12);
    expect(summariseQuantity(rows(null, null), 'contact_time_ms')).toBeNull();
  });

  it('is as uncertain as contacts scatter, or as they were measured where that is more', () => {
    expect(summariseQuantity(rows(100, 104, 108), 'contact_time_ms')!.mean_u).toBeCloseTo(4 / Math.sqrt(3), 12);
    expect(summariseQuantity(rows(100, 100, 100), 'contact_time_ms')!.mean_u).toBeCloseTo(2 / Math.sqrt(3), 12);
    expect(summariseQuantity(rows(100), 'contact_time_ms')).toEqual({ mean: 100, sd: 0, mean_u: 2, n: 1 });
  });

  it('keeps whole what all contacts have in common: an error of speed does not average out', () => {
    const fast = run(4).map((row, i) => ({ ...row, speed_mps: [8, 8.2, 8.4, 8.2][i], speed_mps_u: 0.3 }));
    const { sd, mean_u } = summariseQuantity(fast, 'speed_mps')!;
    expect(mean_u).toBeCloseTo(Math.hypot(sd / 2, 0.3), 12);
  });
});

describe('summariseRepetition', () => {
  it('parts all contacts, those at speed, and the sides of the stretch that the means rest on', () => {
    const rows = run(12);
    rows.forEach((row, i) => {
      row.phase = i < 4 ? 'acceleration' : 'maximum speed';
      row.contact_time_ms = row.side === 'left' ? 100 + i : 110 + i;
    });
    const made = summariseRepetition(rows, { distance_m: 30, time_s: 4.2, steady: false });
    expect([made.contacts, made.all.contact_time_ms!.n, made.at_speed.contact_time_ms!.n]).toEqual([12, 12, 8]);
    expect([made.distance_m, made.time_s, made.contacts_missing, made.missing]).toEqual([30, 4.2, 0, []]);
    expect(made.left.contact_time_ms!.mean).toBeCloseTo(100 + (4 + 6 + 8 + 10) / 4, 9);
    expect(made.right.contact_time_ms!.mean).toBeCloseTo(110 + (5 + 7 + 9 + 11) / 4, 9);
    const steady = summariseRepetition(rows, { distance_m: null, time_s: null, steady: true });
    expect(steady.at_speed.contact_time_ms!.n).toBe(12);
    expect(steady.left.contact_time_ms!.n).toBe(6);
  });

  it('counts what is missing, and compares sides over all where hardly anything is at speed', () => {
    const rows = run(10);
    for (const row of rows) row.phase = 'acceleration';
    rows[9].phase = 'maximum speed';
    const gap = { after_step: 3, contacts: 2 } as never;
    const made = summariseRepetition(rows, { distance_m: null, time_s: null, steady: false, missing: [gap, gap] });
    expect(made.contacts_missing).toBe(4);
    expect(made.left.contact_time_ms!.n).toBe(5);
  });
});

describe('fillPhases', () => {
  const phases = (speeds: (number | null)[], swings: (number | null)[] = speeds.map(() => null)) => {
    const rows = run(speeds.length);
    rows.forEach((row, i) => {
      row.speed_mps = speeds[i];
    });
    fillPhases(rows, swings, S);
    return rows.map(({ phase }) => phase);
  };
  const letters = (speeds: (number | null)[], swings?: (number | null)[]) =>
    phases(speeds, swings)
      .map((phase) => (phase === null ? '-' : phase === 'slowing' ? 's' : phase[0]))
      .join('');

  it('goes by shares of the highest speed, smoothed over three, up to the last fast step', () => {
    // Highest mean of three: 10. Limits of 0.85 and 0.97 of it.
    const speeds = [5, 6, 7, 8, 9, 9.5, 9.8, 10, 10, 10, 9.9, 9, 8, 7];
    const found = letters(speeds);
    // Acceleration, transition, maximum speed, slowing: in this order and no other.
    expect(found).toMatch(/^a+t+m+s+$/);
    expect(found.indexOf('t')).toBe(4);
  });

  it('goes by swing rates where speed is not known, each foot by its own', () => {
    const swings = [5, 10, 7, 14, 9, 18, 10, 20, 10, 20, 10, 20];
    expect(
      letters(
        swings.map(() => null),
        swings,
      ),
    ).toMatch(/^a+t*m+$/);
    // One sensor reads double: without parting the sides every other step would be slow.
    expect(
      new Set(
        letters(
          swings.map(() => null),
          swings,
        ).slice(7),
      ),
    ).toEqual(new Set(['m']));
  });

  it('says nothing where nothing is known', () => {
    expect(letters([null, null, null])).toBe('---');
  });
});

describe('limitToRate', () => {
  it('doubts the touchdown of a contact of few samples, and gives no contact time below the least number', () => {
    // One contact of 100 ms: 10, 18, 20 and 22 samples.
    const rows = [100, 180, 200, 220].map((rate_hz) => {
      const row = { ...run(1)[0], touchdown_s_u: 0.003, contact_time_ms_u: 5, reasons: {} as Record<string, unknown> };
      limitToRate(row as never, rate_hz, S);
      return row;
    });
    const [ten, eighteen, twenty, more] = rows;
    expect(ten.touchdown_s_u).toBeCloseTo(Math.hypot(0.003, 1.5 / 100), 9);
    expect(ten).toMatchObject({ contact_time_ms: null, toe_off_s: null });
    expect(ten.reasons.contact_time_ms).toEqual({
      because: 'contact_of_few_samples',
      values: { samples: 10, least: 18 },
    });
    expect(eighteen.touchdown_s_u).toBeCloseTo(Math.hypot(0.003, (1.5 * 0.5) / 180), 9);
    expect(eighteen.contact_time_ms_u).toBeCloseTo(Math.hypot(5, (1500 * 0.5) / 180), 9);
    expect(eighteen.contact_time_ms).toBeCloseTo(100, 9);
    expect(twenty.touchdown_s_u).toBeCloseTo(Math.hypot(0.003, (1.5 * 0.25) / 200), 9);
    expect([more.touchdown_s_u, more.contact_time_ms_u]).toEqual([0.003, 5]);
  });
  it('takes toe-off and what rests on it away below the least rate, with the reason', () => {
    const least = S.quality.rate_for_contact_time_hz;
    const [kept, taken] = [run(1)[0], run(1)[0]];
    kept.contact_time_ms = 250;
    limitToRate(kept, least, S);
    expect([kept.contact_time_ms, kept.reasons.contact_time_ms]).toEqual([250, undefined]);
    limitToRate(taken, least - 1, S);
    expect(taken).toMatchObject({
      toe_off_s: null,
      toe_off_s_u: null,
      toe_off_raw_s: null,
      contact_time_ms: null,
      contact_time_ms_u: null,
      contact_time_repeatable_ms: null,
    });
    expect(taken.touchdown_s_u).toBeCloseTo(Math.hypot(0.002, 0.5 / (least - 1)), 12);
    for (const field of ['toe_off_s', 'contact_time_ms', 'flight_time_ms', 'swing_time_ms', 'duty_factor']) {
      expect(taken.reasons[field]).toEqual({
        because: 'rate_too_low',
        values: { rate_hz: least - 1, least_hz: least },
      });
    }
  });
});

describe('contactIntervals', () => {
  const intervals = (...touchdowns: [side: 'left' | 'right', at: number][]) =>
    contactIntervals(touchdowns.map(([side, touchdown_s]) => ({ side, touchdown_s })));

  it('counts steps between contacts, and what is missing of them', () => {
    const all = intervals(['left', 0], ['right', 0.25], ['left', 0.5], ['right', 0.75], ['left', 1]);
    expect(all.map(({ steps, missing, odd }) => [steps, missing, odd])).toEqual(all.map(() => [1, 0, false]));
    for (const { step_s } of all) expect(step_s).toBeCloseTo(0.25, 12);
    const gap = intervals(['left', 0], ['right', 0.25], ['left', 0.5], ['left', 1], ['right', 1.25], ['left', 1.5]);
    expect(gap.map(({ steps, missing }) => [steps, missing])).toEqual([
      [1, 0],
      [1, 0],
      [2, 1],
      [1, 0],
      [1, 0],
    ]);
    const wide = intervals(
      ['left', 0],
      ['right', 0.25],
      ['left', 0.5],
      ['right', 1.25],
      ['left', 1.5],
      ['right', 1.75],
    );
    expect(wide.map(({ steps, missing }) => [steps, missing])[2]).toEqual([3, 2]);
  });

  it('of one foot counts strides', () => {
    const one = intervals(['left', 0], ['left', 0.5], ['left', 1], ['left', 2], ['left', 2.5]);
    expect(one.map(({ steps, missing }) => [steps, missing])).toEqual([
      [2, 0],
      [2, 0],
      [4, 1],
      [2, 0],
    ]);
  });

  it('calls a step unlike those around it odd, and a double of a contact no missing one', () => {
    const even = (from: number, first: number): ['left' | 'right', number][] =>
      Array.from({ length: 9 }, (_, k) => [(k + first) % 2 === 0 ? 'left' : 'right', from + 0.25 * k]);
    // The ninth contact is a left one, and 0.1 s later comes another.
    const twice = intervals(...even(0, 0), ...even(2.1, 0));
    expect(twice[8]).toMatchObject({ missing: 0, odd: true });
    expect(twice.filter(({ odd }) => odd).length).toBe(1);
    const slow = intervals(['left', 0], ['right', 0.5], ['left', 1], ['right', 1.5]);
    expect(slow.every(({ odd }) => odd)).toBe(true);
    expect(contactIntervals([])).toEqual([]);
    expect(intervals(['left', 3])).toEqual([]);
  });
});

describe('first movement', () => {
  const RATE = 100;
  const n = 500;
  const signals = (turning: (i: number) => number): SensorSignals =>
    ({
      rate_hz: RATE,
      start_s: 10,
      length: n,
      acc_norm: new Float64Array(n).fill(STANDARD_GRAVITY_MPS2),
      gyr_radps: {
        x: Float64Array.from({ length: n }, (_, i) => turning(i)),
        y: new Float64Array(n),
        z: new Float64Array(n),
      },
    }) as unknown as SensorSignals;
  const level = (...still: [from: number, to: number][]) =>
    Float64Array.from({ length: n }, (_, i) => (still.some(([from, to]) => i >= from && i < to) ? 0.5 : 2));

  it('is the end of the last stillness that is long enough', () => {
    const s = signals(() => 0);
    const needed = Math.round(S.start.still_for_s * RATE);
    // Stillness ends at sample 300, seen from a touchdown at sample 350.
    expect(firstMovement(s, level([200, 300]), 13.5, S)).toBeCloseTo(10 + 2.99, 9);
    expect(firstMovement(s, level([200, 300], [320, 320 + needed - 1]), 13.5, S)).toBeCloseTo(12.99, 9);
    expect(firstMovement(s, level([200, 300], [320, 320 + needed]), 13.5, S)).toBeCloseTo(
      10 + (320 + needed - 1) / RATE,
      9,
    );
    expect(firstMovement(s, level(), 13.5, S)).toBeNull();
    // Standing longer before the touchdown than a start takes is another matter.
    expect(firstMovement(s, level([0, 100]), 10 + (100 + S.start.longest_start_s * RATE + 5) / RATE, S)).toBeNull();
    expect(firstMovement(s, level([0, 60]), 99, S)).toBeNull();
  });

  it('motion is told in limits of stillness, by turning or by force, whichever is more', () => {
    const turning = motionLevel(
      signals(() => 2 * S.start.still_radps),
      S,
    );
    expect(turning[250]).toBeCloseTo(2, 3);
    const pushed = signals(() => 0);
    pushed.acc_norm.fill(STANDARD_GRAVITY_MPS2 - 3 * S.start.still_mps2);
    expect(motionLevel(pushed, S)[250]).toBeCloseTo(3, 3);
    expect(motionLevel({ ...pushed, gyr_radps: null }, S)[250]).toBeCloseTo(3, 3);
  });
});
