/**
 * One second-order section (biquad): H(z) = gain (1 + b1 z^-1 + z^-2) / (1 + a1 z^-1 + a2 z^-2). Both zeros lie on the unit circle, as
 * those of every Butterworth low-pass and high-pass do. A filter is a cascade of such sections: far better conditioned than one
 * high-order polynomial.
 */
export interface Section {
  readonly gain: number;
  readonly b1: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * Magnitude of a cascade's response at one frequency, single pass.
 * @param sections second-order sections
 * @param frequency_hz 0 to rate_hz / 2
 * @param rate_hz samples a second
 * @returns ratio of amplitudes: 1 lets all pass
 */
export function gainAt(sections: readonly Section[], frequency_hz: number, rate_hz: number): number {
  const w = (2 * Math.PI * frequency_hz) / rate_hz;
  const [c1, s1, c2, s2] = [Math.cos(w), Math.sin(w), Math.cos(2 * w), Math.sin(2 * w)];
  let magnitude = 1;
  for (const { gain, b1, a1, a2 } of sections) {
    const numerator = Math.hypot(1 + b1 * c1 + c2, b1 * s1 + s2);
    const denominator = Math.hypot(1 + a1 * c1 + a2 * c2, a1 * s1 + a2 * s2);
    magnitude *= (gain * numerator) / denominator;
  }
  return magnitude;
}

/**
 * The frequency at which the power is halved (-3 dB) after the given number of passes, by bisection on the response of
 * a monotonic (Butterworth) low-pass or high-pass. This is what a report must state: running a filter forward and
 * backward squares its gain, so the design's own cut-off ends at -6 dB.
 * @param rate_hz samples a second
 * @returns Hz
 */
export function halfPowerFrequency(sections: readonly Section[], rate_hz: number, passes = 2): number {
  const target = 0.5 ** (1 / (2 * passes));
  const rises = gainAt(sections, 0, rate_hz) < target;
  let [low, high] = [0, rate_hz / 2];
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (gainAt(sections, middle, rate_hz) > target === rises) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
