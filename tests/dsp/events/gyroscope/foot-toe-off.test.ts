import { describe, expect, it } from 'vitest';
import { footToeOff } from '../../../../dsp/events/gyroscope/foot-toe-off.ts';
import type { StrideFrame } from '../../../../dsp/events/stride-frame.ts';
import { DEFAULT_SETTINGS } from '../../../../dsp/settings/settings.ts';

const N = 400;
const PUSH = 250;
const TOUCHDOWN = 150;
const { toe_off } = DEFAULT_SETTINGS;
const m = toe_off.foot;

/** A stride of 0.4 s at 1000 Hz whose vertical acceleration stays level, or falls once where told. */
function frameOf(falls_at: number | null): StrideFrame {
  const column = (f: (i: number) => number) => Float64Array.from({ length: N }, (_, i) => f(i));
  const flat = column(() => 0);
  const up = column((i) => (falls_at === null ? 0 : -20 * Math.tanh((i - falls_at) / 4)));
  return {
    first: 0,
    rate_hz: 1000,
    stride_s: N / 1000,
    from: 0,
    to: N - 1,
    rate: flat,
    up,
    forward: flat,
    along: flat,
    across: flat,
    norm: flat,
    angle: flat,
    mean_up: 0,
  };
}

const features = {
  turn: 100,
  landing_from: 0,
  landing_to: 0,
  soft_from: 0,
  soft_to: 0,
  mid: 200,
  rate_minimum: TOUCHDOWN,
  push_minimum: PUSH,
};
const find = (falls_at: number | null, toes_leave: number | null) =>
  footToeOff(frameOf(falls_at), features, TOUCHDOWN, toes_leave, DEFAULT_SETTINGS)!;
/** The fastest heel rise with its offset. */
const PUSHED = PUSH + m.push_offset_contacts * (PUSH - TOUCHDOWN);
const BEFORE = m.toes_before_strides * N;

describe('toe-off of a foot', () => {
  it('by the fastest heel rise alone is its offset later, and less certain', () => {
    const { raw, fused } = find(null, null);
    expect(raw).toBe(PUSH);
    expect(fused.at).toBeCloseTo(PUSHED, 9);
    const sd = Math.hypot(m.push_sd_contacts * (PUSH - TOUCHDOWN), m.push_sd_s * 1000);
    expect(fused.u).toBeCloseTo(m.push_alone_factor * sd, 9);
  });

  it('does not believe toes that leave well before the heel rises fastest', () => {
    expect(find(null, PUSH - BEFORE - 0.01)).toEqual(find(null, null));
    const believed = find(null, PUSH - BEFORE + 0.01).fused;
    expect(believed.at).toBeLessThan(PUSHED);
    expect(believed.disagreement).toBeGreaterThan(0);
  });

  it('lies between the heel rise and toes that leave after it', () => {
    const toes = PUSHED + 4;
    const { at } = find(null, toes - m.toes_offset_s * 1000).fused;
    expect(at).toBeGreaterThan(PUSHED);
    expect(at).toBeLessThan(toes);
  });

  it('goes with the two that agree: late toes alone are outvoted, and count with a fall of the acceleration', () => {
    const late = PUSHED + 12;
    const offset = m.unloading_offset_strides * N;
    const toes = late - m.toes_offset_s * 1000;
    expect(find(null, toes).fused.at - PUSHED).toBeLessThan(2);
    expect(find(late - offset, toes).fused.at - PUSHED).toBeGreaterThan(6);
    expect(Math.abs(find(PUSHED - offset, toes).fused.at - PUSHED)).toBeLessThan(2);
  });

  it('does not take a fall far from the other features for the ground letting go', () => {
    const far = PUSHED + m.unloading_after_strides * N + 12;
    expect(find(far, null).fused.at).toBeCloseTo(PUSHED, 1);
  });
});
