import { describe, expect, it } from 'vitest';
import { jerkAndSnap, jerkMagnitude, landingJerk, passesAll } from '../../../dsp/signals/jerk.ts';
import { lowPass, type SensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';

const RATE = 1000;
const N = 400;
const column = (f: (t: number) => number) => Float64Array.from({ length: N }, (_, i) => f(i / RATE));
/** Parabolas along two axes: jerk and snap are known exactly. */
const acc = { x: column((t) => 3 * t * t), y: column((t) => 4 * t * t), z: column(() => 9.8) };
const signals = { acc_mps2: acc, rate_hz: RATE, length: N } as SensorSignals;

describe('jerk and snap', () => {
  it('of parabolas are exact between the ends, and the length of the vector', () => {
    const { jerk, snap } = jerkAndSnap(acc, RATE, 400);
    for (const i of [1, 100, N - 2]) {
      // Derivatives 6 t and 8 t, then 6 and 8: lengths 10 t and 10.
      expect(jerk[i]).toBeCloseTo((10 * i) / RATE, 8);
      expect(snap[i]).toBeCloseTo(10, 5);
    }
    expect([jerk[0], snap[0], jerk[N - 1], snap[N - 1]]).toEqual([0, 0, 0, 0]);
  });

  it('are low-passed where the cut-off is below what lets everything pass', () => {
    expect([passesAll(350, RATE), passesAll(351, RATE)]).toEqual([false, true]);
    const buzz = { x: column((t) => Math.sin(2 * Math.PI * 200 * t)), y: column(() => 0), z: column(() => 0) };
    const [low, all] = [20, 400].map((cutoff) => jerkAndSnap(buzz, RATE, cutoff).jerk[200]);
    expect(low).toBeLessThan(0.05 * Math.max(...jerkAndSnap(buzz, RATE, 400).jerk));
    expect(all).toBeGreaterThanOrEqual(0);
  });

  it('magnitude is the same however the sensor is turned, and low-passes before it derives', () => {
    const made = jerkMagnitude(signals, 100);
    const turned = jerkMagnitude(
      {
        ...signals,
        acc_mps2: {
          x: column((t) => 0.6 * 3 * t * t - 0.8 * 4 * t * t),
          y: column((t) => 0.8 * 3 * t * t + 0.6 * 4 * t * t),
          z: acc.z,
        },
      },
      100,
    );
    for (const i of [50, 200, 350]) {
      expect(made[i]).toBeCloseTo((10 * i) / RATE, 2);
      expect(turned[i]).toBeCloseTo(made[i], 9);
    }
    // A cut-off above what the rate carries is lowered to 0.4 of it.
    const high = jerkMagnitude(signals, 1e6);
    expect([...high]).toEqual([...jerkMagnitude(signals, 0.4 * RATE)]);
  });

  it('of a landing is smoothed to what a stride carries', () => {
    const usual_s = 0.5;
    const { cutoff } = DEFAULT_SETTINGS.accelerometer;
    const wanted = lowPass(
      jerkMagnitude(signals, cutoff.jolt / usual_s),
      DEFAULT_SETTINGS.features.cutoff_per_stride / usual_s,
      RATE,
    );
    expect([...landingJerk(signals, usual_s, DEFAULT_SETTINGS)]).toEqual([...wanted]);
  });
});
