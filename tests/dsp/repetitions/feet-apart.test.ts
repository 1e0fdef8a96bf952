import { describe, expect, it } from 'vitest';
import { analyse } from '../../../dsp/analyse.ts';
import { feetApart } from '../../../dsp/repetitions/feet-apart.ts';
import { fillStepTimes } from '../../../dsp/repetitions/step-times.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { Side } from '../../../shared/words.ts';
import { contactRows } from '../../helpers/contact-rows.ts';
import { told } from '../../helpers/told.ts';

const STRIDE_S = 0.5;
const CONTACT_S = 0.11;

/** Twelve contacts by turns; the right clock is so much late. */
const run = (late_s: number, left_out = -1) =>
  contactRows(
    Array.from({ length: 12 }, (_, i) => {
      const side: Side = i % 2 === 0 ? 'left' : 'right';
      const touchdown_s = 1 + (i * STRIDE_S) / 2 + (side === 'right' ? late_s : 0);
      return { side, touchdown_s, toe_off_s: touchdown_s + CONTACT_S };
    }).filter((_, i) => i !== left_out),
  );

describe('feetApart', () => {
  it('says nothing of even steps, of an uneven runner, of one foot, of few strides', () => {
    expect(feetApart(run(0), 0)).toBeNull();
    // Three hundredths of a stride: twice the least even of sixteen people on plates.
    expect(feetApart(run(0.03 * STRIDE_S), 0)).toBeNull();
    const rows = run(0.1);
    expect(
      feetApart(
        rows.filter(({ side }) => side === 'left'),
        0,
      ),
    ).toBeNull();
    expect(feetApart(rows.slice(0, 4), 0)).toBeNull();
  });

  it('measures by how much, either way, also where a contact was missed', () => {
    expect(feetApart(run(0.04), 0)).toMatchObject({ apart_s: expect.closeTo(0.04, 9), empty: false });
    expect(feetApart(run(-0.1), 0)).toMatchObject({
      apart_s: expect.closeTo(-0.1, 9),
      after_left_s: expect.closeTo(0.15, 9),
      after_right_s: expect.closeTo(0.35, 9),
      empty: true,
    });
    expect(feetApart(run(0.1, 5), 0)?.apart_s).toBeCloseTo(0.1, 9);
  });

  it('takes what is known of the clocks into account', () => {
    expect(feetApart(run(0.04), 0.01)).toBeNull();
  });
});

describe('fillStepTimes of feet that disagree', () => {
  it('leaves out what is built on both feet, counts no contact as missed, and keeps each foot’s own', () => {
    const rows = run(0.15);
    const intervals = fillStepTimes(rows, 0, feetApart(rows, 0));
    expect(intervals.map(({ missing }) => missing)).toEqual(intervals.map(() => 0));
    // Filled before as if the feet agreed, so only what a fresh row gets is looked at.
    const fresh = run(0.15).map((row) => ({ ...row, step_time_ms: null, flight_time_ms: null, reasons: {} }));
    fillStepTimes(fresh, 0, feetApart(fresh, 0));
    for (const row of fresh.slice(0, -2)) {
      expect(row).toMatchObject({
        step_time_ms: null,
        flight_time_ms: null,
        stride_time_ms: expect.closeTo(500, 6),
        reasons: { step_time_ms: { because: 'feet_disagree' }, flight_time_ms: { because: 'feet_disagree' } },
      });
    }
  });
});

describe('an analysis whose sensors have clocks apart', () => {
  const { sensors } = generateRepetition({
    seed: 21,
    repetitions: [{ distance_m: 30, effort: 1, run_out_s: 0.3 }],
    stand_before_s: 1,
    walk_steps: 0,
    stand_after_s: 1,
    mountings: ['foot'],
    internal_rate_hz: 2000,
    sensor: { rate_hz: 500, acc_range_g: 32, gyr_range_dps: 4000 },
  });
  const analysed = (late_s: number) =>
    analyse({
      sensors: (['left', 'right'] as const).map((side) => ({
        side,
        mounting: 'foot',
        samples: sensors.foot[side],
        clock_offset_s: side === 'right' ? late_s : 0,
        clock_drift: 0,
        clock_offset_u_s: 0,
      })),
      course: UNKNOWN_COURSE,
      conditions: UNKNOWN_CONDITIONS,
    });

  it('says by how much, leaves no flight below zero, and gives the same contact times', () => {
    const [right, apart] = [analysed(0), analysed(0.12)];
    expect(right.faults.map(({ code }) => code)).not.toContain('FEET_DISAGREE');
    const fault = apart.faults.find(({ code }) => code === 'FEET_DISAGREE')!;
    expect(told(fault).message).toMatch(/clocks of the two sensors seem 1[12]\d ms apart/);
    const [rows, others] = [right, apart].map(({ repetitions }) => repetitions[0].contacts);
    expect(others.every(({ flight_time_ms }) => flight_time_ms === null)).toBe(true);
    const times = (contacts: typeof rows, side: Side) =>
      contacts.filter((row) => row.side === side).map((row) => row.contact_time_ms!.toFixed(6));
    for (const side of ['left', 'right'] as const) expect(times(others, side)).toEqual(times(rows, side));
  });
});
