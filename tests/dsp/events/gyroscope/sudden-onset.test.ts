import { describe, expect, it } from 'vitest';
import { jerkAndSnap } from '../../../../dsp/signals/jerk.ts';
import { bridgeClipped } from '../../../../dsp/signals/clipped-runs.ts';
import { suddenOnsets } from '../../../../dsp/events/gyroscope/sudden-onset.ts';

const RATE = 1000;
const N = 400;

/** A swing of 8 Hz, and from sample `at` on a ringing blow of 120 Hz. */
function swingAndBlow(at: number, blow: number, swing = 200): Float64Array {
  return Float64Array.from({ length: N }, (_, i) => {
    const since = (i - at) / RATE;
    const ring = since > 0 ? blow * Math.sin(2 * Math.PI * 120 * since) * Math.exp(-since / 0.012) : 0;
    return swing * Math.sin((2 * Math.PI * 8 * i) / RATE) + ring;
  });
}

function onsets(x: Float64Array, clipped: Uint8Array = new Uint8Array(N)) {
  const still = new Float64Array(N);
  const acc = bridgeClipped({ x, y: still, z: still }, clipped);
  return suddenOnsets(jerkAndSnap(acc, RATE, 300), 100, 350, 9).sort((a, b) => b.score - a.score);
}

describe('suddenOnsets', () => {
  it('dates a blow within a fast swing to a period of the low-pass (3.3 ms), whatever the strength of the blow', () => {
    for (const blow of [30, 100, 400]) {
      const [likeliest] = onsets(swingAndBlow(220.4, blow));
      expect(Math.abs(likeliest.at - 220.4)).toBeLessThan(3.3);
    }
  });

  it('a stronger blow 25 ms later does not take the place of the first', () => {
    const first = swingAndBlow(220, 60);
    const second = swingAndBlow(245, 180, 0);
    const [likeliest] = onsets(first.map((v, i) => v + second[i]));
    expect(Math.abs(likeliest.at - 220)).toBeLessThan(2);
  });

  it('finds no jump of note where there is only the swing', () => {
    for (const onset of onsets(swingAndBlow(1e6, 0))) expect(onset.jump).toBeLessThan(3);
  });

  it('the corners of a clipped swing are no blows', () => {
    const whole = swingAndBlow(300, 100);
    const limit = 157;
    const cut = whole.map((v) => Math.max(-limit, Math.min(limit, v)));
    const clipped = Uint8Array.from(cut, (v) => (Math.abs(v) >= limit ? 1 : 0));
    expect(clipped.reduce((sum, v) => sum + v, 0)).toBeGreaterThan(20);
    const [likeliest] = onsets(cut, clipped);
    expect(Math.abs(likeliest.at - 300)).toBeLessThan(2);
  });

  it('does not change with the unit of acceleration and moves with time', () => {
    const [base] = onsets(swingAndBlow(220.4, 100));
    const [scaled] = onsets(swingAndBlow(220.4, 100).map((v) => v / 9.80665));
    expect(scaled.at).toBeCloseTo(base.at, 9);
    expect(scaled.jump).toBeCloseTo(base.jump, 9);
  });
});

describe('bridgeClipped', () => {
  it('goes on with value and slope on both sides: a clipped parabola comes back nearly whole', () => {
    const parabola = Float64Array.from({ length: 60 }, (_, i) => 160 - 0.4 * (i - 30) ** 2);
    const cut = parabola.map((v) => Math.min(v, 150));
    const clipped = Uint8Array.from(cut, (v) => (v >= 150 ? 1 : 0));
    const zero = new Float64Array(60);
    const { x } = bridgeClipped({ x: cut, y: zero, z: zero }, clipped);
    for (let i = 0; i < 60; i++) expect(Math.abs(x[i] - parabola[i])).toBeLessThan(1.5);
  });

  it('gives the columns themselves where nothing is clipped', () => {
    const acc = { x: new Float64Array(5), y: new Float64Array(5), z: new Float64Array(5) };
    expect(bridgeClipped(acc, new Uint8Array(5))).toBe(acc);
  });
});

describe('bridgeClipped, of a blow', () => {
  it('leaves the run that a blow itself runs into: its onset stays where it was', () => {
    const whole = swingAndBlow(250, 900, 60);
    const cut = whole.map((v) => Math.max(-157, Math.min(157, v)));
    const clipped = Uint8Array.from(cut, (v) => (Math.abs(v) >= 157 ? 1 : 0));
    const [likeliest] = onsets(cut, clipped);
    expect(Math.abs(likeliest.at - 250)).toBeLessThan(3.3);
  });
});
