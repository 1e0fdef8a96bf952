import { describe, expect, it } from 'vitest';
import { fillStepTimes } from '../../../dsp/repetitions/step-times.ts';
import { type Instants, contactRows } from '../../helpers/contact-rows.ts';
import { normal } from '../../helpers/random.ts';

const STEP_S = 0.23;

/** Even running: alternate feet, every step alike. */
const running = (steps: number): Instants[] =>
  Array.from({ length: steps }, (_, i) => ({
    side: i % 2 === 0 ? 'left' : 'right',
    touchdown_s: 1 + STEP_S * i,
    toe_off_s: 1 + STEP_S * i + 0.11,
  }));

describe('a contact that was missed', () => {
  it('leaves the stride and the step over it empty, and no other', () => {
    const rows = contactRows(running(12).filter((_, i) => i !== 6));
    // Left of 4 has its next at 8: the foot was down between.
    expect(rows[4].stride_time_ms).toBeNull();
    expect(rows[4].swing_time_ms).toBeNull();
    // Right of 5 has no left after it, but its own next contact is there.
    expect(rows[5].step_time_ms).toBeNull();
    expect(rows[5].stride_time_ms).toBeCloseTo(2000 * STEP_S, 6);
    for (const row of rows.slice(0, 4)) expect(row.stride_time_ms).toBeCloseTo(2000 * STEP_S, 6);
  });

  it('is told by the length of the stride where one foot alone was recorded', () => {
    const rows = contactRows(running(16).filter(({ side }, i) => side === 'left' && i !== 6));
    expect(rows[2].stride_time_ms).toBeNull();
    expect(rows[2].flight_time_ms).toBeNull();
    expect(rows[3].stride_time_ms).toBeCloseTo(2000 * STEP_S, 6);
  });

  it('is not seen in a runner who slows down', () => {
    let [at, step] = [1, 0.22];
    const slowing = running(10).map(({ side }) => {
      at += step;
      step *= 1.09;
      return { side, touchdown_s: at, toe_off_s: at + 0.1 };
    });
    for (const row of contactRows(slowing).slice(0, 8)) expect(row.stride_time_ms).not.toBeNull();
  });
});

describe('uncertainty', () => {
  it('of the two feet’s clocks enters what lies between the feet, and nothing else', () => {
    const [together, apart] = [contactRows(running(8)), contactRows(running(8))];
    fillStepTimes(apart, 0.01);
    expect(apart[2].step_time_ms_u!).toBeCloseTo(Math.hypot(together[2].step_time_ms_u!, 10), 9);
    expect(apart[2].flight_time_ms_u!).toBeCloseTo(Math.hypot(together[2].flight_time_ms_u!, 10), 9);
    expect(apart[2].stride_time_ms_u).toBe(together[2].stride_time_ms_u);
    expect(apart[2].swing_time_ms_u).toBe(together[2].swing_time_ms_u);
  });

  it('of the duty factor is that of contact over stride: both enter, relative to their size', () => {
    const rows = contactRows(running(8));
    const [row, next] = [rows[2], rows[4]];
    const contact = row.contact_time_ms_u! / row.contact_time_ms!;
    const stride = row.stride_time_ms_u! / row.stride_time_ms!;
    expect(stride).toBeGreaterThan(0);
    expect(row.duty_factor_u! / row.duty_factor!).toBeCloseTo(Math.hypot(contact, stride), 12);
    // A stride that is hardly known makes a duty factor that is hardly known, however well the contact is.
    next.touchdown_s_u = 0.1;
    fillStepTimes(rows, 1.4);
    expect(row.duty_factor_u! / row.duty_factor!).toBeGreaterThan(0.95 * (100 / row.stride_time_ms!));
  });

  it('holds step and stride times as often as it says where each foot has an offset of its own', () => {
    const u = 0.003;
    const z = normal(11);
    const [offset, own] = [u * Math.sqrt(0.6), u * Math.sqrt(0.4)];
    let [steps, strides, all] = [0, 0, 0];
    for (let run = 0; run < 300; run++) {
      const offsets = { left: offset * z(), right: offset * z() };
      const rows = contactRows(
        running(8).map((c) => ({ ...c, touchdown_s: c.touchdown_s + offsets[c.side] + own * z() })),
        u,
      );
      const row = rows[3];
      all++;
      if (Math.abs(row.step_time_ms! - 1000 * STEP_S) < 1.96 * row.step_time_ms_u!) steps++;
      if (Math.abs(row.stride_time_ms! - 2000 * STEP_S) < 1.96 * row.stride_time_ms_u!) strides++;
    }
    for (const covered of [steps / all, strides / all]) {
      expect(covered).toBeGreaterThan(0.92);
      expect(covered).toBeLessThan(0.98);
    }
  });
});
