import { describe, expect, it } from 'vitest';
import { bridgeShortLosses, clippedSamples, sensorSignals, thinned } from '../../../dsp/signals/sensor-signals.ts';
import { strideFrame } from '../../../dsp/events/stride-frame.ts';
import { longestRun } from '../../../dsp/numeric/masks.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 as G } from '../../../shared/units.ts';

const HZ = 500;
const STRIDE_S = 0.7;
const SECONDS = 7;

/**
 * A sensor that swings like a leg about its y axis in place, once a stride, bobbing up and down by a known motion: at pitch p it reads
 * gravity and the bob along its own turned axes. Forward swing raises the toes (x towards z).
 */
function swinging(): SensorRecording {
  const n = SECONDS * HZ;
  const w = (2 * Math.PI) / STRIDE_S;
  const t = Float64Array.from({ length: n }, (_, i) => i / HZ);
  // Forward swing is one fast sweep, backward two slower ones: the rate's third harmonic makes it skew.
  const pitch = t.map((s) => 0.9 * Math.sin(w * s) + 0.15 * Math.sin(2 * w * s + 1.5));
  const rate = t.map((s) => 0.9 * w * Math.cos(w * s) + 0.3 * w * Math.cos(2 * w * s + 1.5));
  // Sinks while it swings forward.
  const bob = t.map((s) => 0.05 * w * w * Math.sin(w * s));
  const up = bob.map((b) => G + b);
  const zero = new Float64Array(n);
  return {
    side: 'left',
    mounting: 'foot',
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
    samples: {
      start_utc: null,
      sampling_rate_hz: HZ,
      time_s: t,
      acc_mps2: { x: up.map((a, i) => a * Math.sin(pitch[i])), y: zero, z: up.map((a, i) => a * Math.cos(pitch[i])) },
      gyr_radps: { x: zero, y: rate.map((r) => -r), z: zero },
      gaps: [],
      acc_range_mps2: null,
      gyr_range_radps: null,
    },
  };
}

describe('strideFrame', () => {
  const signals = sensorSignals(swinging(), DEFAULT_SETTINGS);
  const from = Math.round(2 * STRIDE_S * HZ);
  const to = from + Math.round(STRIDE_S * HZ);
  const cycle = {
    from,
    to,
    whole: true,
    stride_from: from,
    stride_to: to,
    swing_before_radps: 8,
    swing_after_radps: 8,
  };

  it('finds the axis and its forward side', () => {
    expect(signals.axis![1]).toBeCloseTo(-1, 6);
  });

  it('turns a swinging sensor upright: what it reads is gravity and the bob, and nothing forward', () => {
    const frame = strideFrame(signals, cycle, 100, 0.1)!;
    const w = (2 * Math.PI) / STRIDE_S;
    for (let i = frame.from; i < frame.to; i += 20) {
      const s = (frame.first + i) / HZ;
      expect(frame.up[i]).toBeCloseTo(G + 0.05 * w * w * Math.sin(w * s), 1);
      expect(Math.abs(frame.forward[i])).toBeLessThan(0.15);
    }
    expect(frame.mean_up).toBeCloseTo(G, 1);
  });

  it('is null across a gap that was not bridged', () => {
    const gap = swinging();
    gap.samples.acc_mps2.x.fill(Number.NaN, from + 40, from + 40 + Math.ceil(0.1 * HZ));
    expect(strideFrame(sensorSignals(gap, DEFAULT_SETTINGS), cycle, 100, 0.1)).toBeNull();
  });
});

describe('columns', () => {
  it('bridgeShortLosses draws a line across a short loss and leaves a long one, and the ends', () => {
    const nan = Number.NaN;
    const x = Float64Array.from([nan, 1, nan, nan, 4, nan, nan, nan, 8, nan]);
    bridgeShortLosses(x, 2);
    expect([...x]).toEqual([nan, 1, 2, 3, 4, nan, nan, nan, 8, nan]);
  });

  it('clippedSamples marks any axis at its full scale, and nothing where the scale is unknown', () => {
    const c = { x: Float64Array.from([0, 156.9]), y: Float64Array.from([0, 0]), z: Float64Array.from([-156.9, 3]) };
    expect([...clippedSamples(c, 156.9, 0.995)]).toEqual([1, 1]);
    expect([...clippedSamples(c, null, 0.995)]).toEqual([0, 0]);
  });

  it('thinned keeps every k-th sample', () => {
    expect([...thinned(Float64Array.from([0, 1, 2, 3, 4, 5, 6]), 3)]).toEqual([0, 3, 6]);
  });

  it('longestRun measures the whole run that reaches into a window', () => {
    const mask = Uint8Array.from([1, 0, 0, 0, 1, 1, 0, 1]);
    expect(longestRun(mask, 0, 3, 5)).toBe(3);
    expect(longestRun(mask, 0, 4, 6)).toBe(0);
  });
});
