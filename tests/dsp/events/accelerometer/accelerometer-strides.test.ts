/** Stride time and anchors without a gyroscope, on signals made of a few waves: what each limit lets through and what it stops. */
import { describe, expect, test } from 'vitest';
import { accelerometerFrame } from '../../../../dsp/events/accelerometer/accelerometer-frame.ts';
import {
  anchoredStrides,
  type StrideTimes,
  strideTimeAt,
  strideTimes,
  usualStrideTime,
} from '../../../../dsp/events/accelerometer/accelerometer-strides.ts';
import { DEFAULT_SETTINGS } from '../../../../dsp/settings/settings.ts';
import type { SensorSignals } from '../../../../dsp/signals/sensor-signals.ts';
import { normal } from '../../../helpers/random.ts';

const HZ = 100;
const made = (seconds: number, at: (t: number) => number) =>
  Float64Array.from({ length: Math.round(seconds * HZ) }, (_, i) => at(i / HZ));
/** A wave with one main peak each period. */
const stride = (period_s: number) => (t: number) =>
  Math.cos((2 * Math.PI * t) / period_s) + 0.5 * Math.cos((4 * Math.PI * t) / period_s);
const all = (x: Float64Array) => new Uint8Array(x.length).fill(1);
const timesOf = (x: Float64Array, active = all(x)) => strideTimes(x, active, HZ, DEFAULT_SETTINGS);
const middle = ({ values_s }: StrideTimes) => values_s[values_s.length >> 1];

describe('stride times', () => {
  test.each([0.37, 0.5, 0.65, 0.8, 0.94])('are the period of what repeats itself: %d s', (period_s) => {
    expect(middle(timesOf(made(12, stride(period_s))))).toBeCloseTo(period_s, 2);
  });

  test('shorter than any stride are told as two of them, never as one', () => {
    // Four steps in 0.68 s would be nearly six steps a second; 0.40 s a stride is the fastest of people.
    expect(middle(timesOf(made(12, stride(0.34))))).toBeCloseTo(0.68, 2);
  });

  test('of walking are its own, beyond the longest of running, and are no usual stride of a run', () => {
    const times = timesOf(made(12, stride(1.1)));
    expect(middle(times)).toBeCloseTo(1.1, 2);
    const { longest_stride_s } = DEFAULT_SETTINGS.accelerometer;
    expect(usualStrideTime(times, longest_stride_s)).toBeNaN();
    expect(usualStrideTime(timesOf(made(12, stride(0.9))), longest_stride_s)).toBeCloseTo(0.9, 2);
  });

  test('are given where the sensor is shaken as in running, and nowhere else', () => {
    const x = made(12, stride(0.6));
    const active = all(x).fill(0, 0, 6 * HZ);
    const { step, values_s } = timesOf(x, active);
    values_s.forEach((value, k) => {
      expect([k, Number.isNaN(value)]).toEqual([k, k * step < 6 * HZ]);
    });
  });

  test('follow a change within the stretch that is looked at', () => {
    // 2.4 s long, the middle of it every 0.6 s: 1.3 s after the change three quarters of the stretch are new.
    const times = timesOf(made(12, (t) => (t < 6 ? stride(0.6)(t) : stride(0.5)(t))));
    expect(times.values_s[Math.round((4.7 * HZ) / times.step)]).toBeCloseTo(0.6, 2);
    expect(times.values_s[Math.round((7.3 * HZ) / times.step)]).toBeCloseTo(0.5, 2);
    expect([times.step, times.values_s.length]).toEqual([0.6 * HZ, 12 / 0.6]);
    expect(strideTimeAt(times, 2 * HZ)).toBeCloseTo(0.6, 2);
    expect(strideTimeAt(times, 10 * HZ)).toBeCloseTo(0.5, 2);
  });

  test.each([
    [0.6, true],
    [0.25, false],
  ])('where a stride is to %d like the next one: told %s', (likeness, found) => {
    // A wave of power 0.625 in noise of the power that leaves it that likeness.
    const noise = normal(5);
    const sd = Math.sqrt((0.625 * (1 - likeness)) / likeness);
    const { values_s } = timesOf(made(30, (t) => stride(0.6)(t) + sd * noise()));
    const told = values_s.filter(Number.isFinite).length / values_s.length;
    if (found) expect(told).toBeGreaterThan(0.8);
    else expect(told).toBeLessThan(0.2);
  });

  /** Every other stride differs: one is to `likeness` like the next, and wholly like the one after that. */
  const limping = (likeness: number) => (t: number) =>
    stride(0.5)(t) + Math.sqrt((2 * 0.625 * (1 - likeness)) / (1 + likeness)) * Math.cos(2 * Math.PI * t);

  test.each([
    [0.92, 0.5],
    [0.78, 1],
  ])('where every other one differs, to %d alike, are %d s', (likeness, expected_s) => {
    expect(middle(timesOf(made(12, limping(likeness))))).toBeCloseTo(expected_s, 1);
  });

  test.each([
    [0.65, 0.5],
    [0.35, 1],
  ])('twice as long as usual are halved where half is likely as well: to %d alike, %d s', (likeness, expected_s) => {
    const { step, values_s } = timesOf(made(24, (t) => (t < 14 ? stride(0.5)(t) : limping(likeness)(t))));
    expect(values_s[Math.round((20 * HZ) / step)]).toBeCloseTo(expected_s, 1);
  });
});

describe('anchors of strides', () => {
  const P = 0.6;
  /** One bump of that height every 0.6 s. */
  const bumps = (heights: readonly number[], tail_s = 2) =>
    made(heights.length * P + tail_s, (t) =>
      heights.reduce((sum, height, k) => sum + height * Math.exp(-(((t - (k + 0.5) * P) / 0.06) ** 2)), 0),
    );
  const anchorsOf = (x: Float64Array, usual_s = P) => {
    const step = 60;
    const times = { step, values_s: new Float64Array(Math.ceil(x.length / step)).fill(usual_s) };
    return anchoredStrides(x, 8, times, HZ, DEFAULT_SETTINGS);
  };
  const expected = (n: number) => Array.from({ length: n }, (_, k) => Math.round((k + 0.5) * P * HZ));

  test('are one a stride, each as long as the time to the next', () => {
    const anchors = anchorsOf(bumps(Array(8).fill(1)));
    expect(anchors.map(({ anchor }) => anchor)).toEqual(expected(8));
    for (const { stride_s } of anchors) expect(stride_s).toBeCloseTo(P, 2);
  });

  test('last as long as they are apart where that is near the usual time, else the usual time', () => {
    const x = bumps(Array(8).fill(1));
    for (const { stride_s } of anchorsOf(x, 0.52)) expect(stride_s).toBeCloseTo(P, 2);
    for (const { stride_s } of anchorsOf(x, 0.45)) expect(stride_s).toBeCloseTo(0.45, 2);
  });

  test('pass over a smaller peak between two', () => {
    const main = bumps(Array(8).fill(1));
    const between = (t: number) => (t < 7.5 * P ? 0.6 * Math.exp(-(((t % P) / 0.05) ** 2)) : 0);
    const x = main.map((v, i) => v + between(i / HZ));
    expect(anchorsOf(x).map(({ anchor }) => anchor)).toEqual(expected(8));
  });

  test('a last one that swings far less than the one before belongs to no run; one that swings half as far does', () => {
    expect(anchorsOf(bumps([1, 1, 1, 1, 1, 0.38]))).toHaveLength(5);
    expect(anchorsOf(bumps([1, 1, 1, 1, 1, 0.55]))).toHaveLength(6);
    // Not the last: a weak stride within a run stays.
    expect(anchorsOf(bumps([1, 1, 0.38, 1, 1, 1]))).toHaveLength(6);
  });

  test('a peak far below its neighbours is none', () => {
    const found = anchorsOf(bumps([1, 1, 1, 0.15, 1, 1, 1])).map(({ anchor }) => anchor);
    expect(found).not.toContain(expected(7)[3]);
    expect(found).toHaveLength(6);
    expect(anchorsOf(bumps([1, 1, 1, 0.27, 1, 1, 1]))).toHaveLength(7);
  });

  test('where strides are longer than those of running there are none', () => {
    const x = bumps(Array(8).fill(1));
    const values_s = new Float64Array(20).fill(1.0);
    expect(anchoredStrides(x, 8, { step: 60, values_s }, HZ, DEFAULT_SETTINGS)).toEqual([]);
  });
});

describe('the frame without a gyroscope', () => {
  /** Gravity and a swing across it, shaken with that standard deviation of the acceleration's length. */
  const shaken = (sd_mps2: number, seconds = 8): SensorSignals => {
    const z = made(seconds, (t) => 20 + Math.SQRT2 * sd_mps2 * Math.sin(2 * Math.PI * 3.7 * t));
    const still = () => new Float64Array(z.length);
    return {
      acc_mps2: { x: still(), y: still(), z },
      acc_norm: z.slice(),
      rate_hz: HZ,
      length: z.length,
    } as Partial<SensorSignals> as SensorSignals;
  };

  test('is of what is shaken as hard as running shakes a shoe, and of nothing else', () => {
    expect(accelerometerFrame(shaken(5.4), DEFAULT_SETTINGS)).toBeNull();
    const frame = accelerometerFrame(shaken(6.6), DEFAULT_SETTINGS)!;
    expect(frame.active.every((one) => one === 1)).toBe(true);
  });

  test('needs about a stride of it', () => {
    expect(accelerometerFrame(shaken(10, 0.7), DEFAULT_SETTINGS)).toBeNull();
    expect(accelerometerFrame(shaken(10, 1), DEFAULT_SETTINGS)).not.toBeNull();
  });
});
