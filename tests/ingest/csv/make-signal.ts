/**
 * A short invented recording for the odd files: a sensor that lies still, then is shaken as a foot in a run would. Known exactly,
 * in SI units, before any file is written: what a reader must get back.
 */
export interface KnownRecording {
  rate_hz: number;
  time_s: number[];
  /** m/s2, n rows of x, y, z. */
  acc: number[][];
  /** rad/s, n rows of x, y, z. */
  gyr: number[][];
}

const G = 9.80665;

export function randomStream(seed: number): () => number {
  // Mulberry32, public domain.
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** @param rest rows at rest; @param moving rows of motion that follow */
export function makeSignal(seed: number, rate_hz = 200, rest = 100, moving = 60): KnownRecording {
  const random = randomStream(seed);
  const noise = () => random() - 0.5;
  const tilt = [0.3 + 0.4 * random(), 0.2 + 0.3 * random()];
  const still = [
    G * Math.sin(tilt[0]),
    G * Math.cos(tilt[0]) * Math.sin(tilt[1]),
    G * Math.cos(tilt[0]) * Math.cos(tilt[1]),
  ];
  const recording: KnownRecording = { rate_hz, time_s: [], acc: [], gyr: [] };
  for (let i = 0; i < rest + moving; i++) {
    const t = (i - rest) / rate_hz;
    const shake = i < rest ? 0 : 1;
    const pulse = shake * Math.exp(-(((t * 5) % 1) * 6)) * 75;
    recording.time_s.push(i / rate_hz);
    recording.acc.push(
      still.map(
        (value, axis) => value + 0.04 * noise() + pulse * [0.5, -0.3, 0.9][axis] + shake * 12 * Math.sin(31 * t + axis),
      ),
    );
    recording.gyr.push([0.6, 9, 2].map((size, axis) => 0.006 * noise() + shake * size * Math.sin(17 * t + 1.1 * axis)));
  }
  return recording;
}
