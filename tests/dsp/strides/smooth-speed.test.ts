import { describe, expect, test } from 'vitest';
import { smoothSpeed, type Way } from '../../../dsp/strides/smooth-speed.ts';
import { normal } from '../../helpers/random.ts';

/** Ways of two feet: each a stride of two steps, the feet half a stride apart, from mid-contact to mid-contact. */
function ways(distanceAt: (t: number) => number, edges: number[], error = () => 0, u = 0.02): Way[] {
  return edges.slice(0, -3).map((edge, k) => {
    const [from_s, to_s] = [edge + 0.05, edges[k + 2] + 0.05];
    return { from_s, to_s, length_m: distanceAt(to_s) - distanceAt(from_s) + error(), length_m_u: u };
  });
}

const EDGES = Array.from({ length: 24 }, (_, i) => 1 + 0.23 * i);

/** The first interval is not wholly, the last two are hardly covered by a way. */
const COVERED = [1, 2, 3, 8, 15, 19];

describe('speed of steps from the strides that overlap them', () => {
  test.each([
    ['even', (t: number) => 8 * t],
    ['that rises steadily', (t: number) => 3 * t + t * t],
  ])('a speed %s comes back exactly', (_, distanceAt) => {
    const speeds = smoothSpeed(EDGES, ways(distanceAt, EDGES), 0.2);
    for (const k of COVERED) {
      const truth = (distanceAt(EDGES[k + 1]) - distanceAt(EDGES[k])) / (EDGES[k + 1] - EDGES[k]);
      expect(speeds[k]!.speed_mps).toBeCloseTo(truth, 9);
    }
  });

  test('a sudden slowing is followed within its stated uncertainty', () => {
    // 9 m/s to the line, then 2.5 m/s2 slower.
    const bend = EDGES[12];
    const distanceAt = (t: number): number => 9 * t - (t > bend ? 1.25 * (t - bend) ** 2 : 0);
    const speeds = smoothSpeed(EDGES, ways(distanceAt, EDGES), 0.2);
    for (let k = 1; k < 21; k++) {
      const truth = (distanceAt(EDGES[k + 1]) - distanceAt(EDGES[k])) / (EDGES[k + 1] - EDGES[k]);
      expect(Math.abs(speeds[k]!.speed_mps - truth)).toBeLessThan(1.96 * speeds[k]!.speed_mps_u);
    }
  });

  test('intervals hold the truth about as often as they say, for runners who change speed as the penalty supposes', () => {
    const z = normal(7);
    let [inside, all] = [0, 0];
    for (let run = 0; run < 60; run++) {
      let [speed, change] = [7, 0.2];
      const speedOf = EDGES.map(() => {
        change += 0.2 * z();
        speed += change;
        return speed;
      });
      const distanceAt = (t: number): number =>
        EDGES.reduce((way, edge, k) => way + speedOf[k] * Math.max(0, Math.min(t, EDGES[k + 1] ?? 99) - edge), 0);
      const found = smoothSpeed(
        EDGES,
        ways(distanceAt, EDGES, () => 0.02 * z()),
        0.2,
      );
      for (const k of COVERED) {
        all++;
        if (Math.abs(found[k]!.speed_mps - speedOf[k]) < 1.96 * found[k]!.speed_mps_u) inside++;
      }
    }
    expect(inside / all).toBeGreaterThan(0.92);
    expect(inside / all).toBeLessThan(0.98);
  });

  test('an interval that no way covers stays empty', () => {
    const speeds = smoothSpeed(
      EDGES,
      ways((t) => 8 * t, EDGES.slice(0, 12)),
      0.2,
    );
    expect(speeds[14]).toBeNull();
    expect(speeds[20]).toBeNull();
    expect(speeds[5]).not.toBeNull();
  });
});
