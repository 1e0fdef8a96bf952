import { describe, expect, it } from 'vitest';
import { generateOtherActivity, OTHER_ACTIVITIES } from '../../seeds/generate-other-activity.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import type { AxisColumns, SampleBlock } from '../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';

const norm = ({ x, y, z }: AxisColumns): Float64Array => x.map((v, i) => Math.hypot(v, y[i], z[i]));
const greatest = (column: Float64Array): number => column.reduce((most, v) => Math.max(most, v), 0);
const mean = (values: number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const gRange = (block: SampleBlock): number => greatest(norm(block.acc_mps2)) / STANDARD_GRAVITY_MPS2;
const dpsRange = (block: SampleBlock): number => (greatest(norm(block.gyr_radps!)) * 180) / Math.PI;

describe('simulated running is plausible', () => {
  const sprint = generateRepetition({
    seed: 5,
    runner: { full_speed_mps: 9.5, strike: 0.6, contact_factor: 1, step_variation: 0.02 },
    repetitions: [{ distance_m: 60 }],
  });
  const contactsMs = sprint.truth.contacts.map((c) => (c.toe_off_s - c.touchdown_s) * 1000);

  it('shortens contact from the first steps to top speed as published', () => {
    // Blauberger et al. 2021, doi 10.3390/s21217331, table 1: steps 1 to 5 163 +- 25 ms, 16 to 25 109 +- 6 ms (by sensor,
    // which read 3.6 ms too little); 2.5 standard deviations each way.
    expect(mean(contactsMs.slice(0, 5))).toBeGreaterThan(163 - 62);
    expect(mean(contactsMs.slice(0, 5))).toBeLessThan(163 + 62);
    expect(mean(contactsMs.slice(15, 25))).toBeGreaterThan(109 + 3.6 - 16);
    expect(mean(contactsMs.slice(15, 25))).toBeLessThan(109 + 3.6 + 16);
  });

  it('reaches step lengths and rates of sprinters', () => {
    // Graubner and Nixdorf 2011: fastest ever 2.44 m mean step at 4.27 Hz; Haugen and others: club sprinters below that.
    const fast = sprint.truth.contacts.filter((c) => c.phase === 'maximum speed' && c.step_length_m !== null);
    const length = mean(fast.map((c) => c.step_length_m ?? 0));
    const speed = mean(fast.map((c) => c.speed_mps));
    expect(length).toBeGreaterThan(1.9);
    expect(length).toBeLessThan(2.44);
    expect(speed / length).toBeGreaterThan(3.8);
    expect(speed / length).toBeLessThan(4.8);
  });

  it('loads the leg as force plates see it', () => {
    // Weyand et al. 2000, J Appl Physiol 89:1991 (from memory): stance-average 2 to 2.6 body weights at top speed; peaks of
    // a half sine lie pi/2 above, impacts somewhat higher.
    for (const contact of sprint.truth.contacts.filter((c) => c.phase === 'maximum speed')) {
      expect(contact.peak_force_bw).toBeGreaterThan(2.5);
      expect(contact.peak_force_bw).toBeLessThan(6.5);
    }
  });

  it('turns and shakes the sensors as fast as sprinting does', () => {
    expect(dpsRange(sprint.sensors.foot.left)).toBeGreaterThan(1300);
    expect(dpsRange(sprint.sensors.foot.left)).toBeLessThan(2800);
    expect(dpsRange(sprint.sensors.shank.left)).toBeGreaterThan(1200);
    // Bailey and Harle 2014: foot peaks to 70 g in steady running; none published for sprints, so above 25 and below 150.
    expect(gRange(sprint.sensors.foot.left)).toBeGreaterThan(25);
    expect(gRange(sprint.sensors.foot.left)).toBeLessThan(150);
  });

  it('turns the foot in a jog as the treadmill recordings of Fukuchi et al. 2017 do', () => {
    // Largest rates of 15 recordings at 2.5 to 4.5 m/s lie between 450 and 920 deg/s (doi 10.7717/peerj.3298).
    for (const speed_mps of [2.5, 3.5, 4.5]) {
      const jog = generateRepetition({ seed: 8, steady: { speed_mps, duration_s: 6 }, mountings: ['foot'] });
      expect(dpsRange(jog.sensors.foot.left)).toBeGreaterThan(450);
      expect(dpsRange(jog.sensors.foot.left)).toBeLessThan(1400);
    }
  });

  it('clips at the range, and nowhere beyond', () => {
    const clipped = generateRepetition({
      seed: 5,
      mountings: ['foot'],
      sensor: { acc_range_g: 16, gyr_range_dps: 1000 },
    });
    const { left } = clipped.sensors.foot;
    expect(greatest(left.acc_mps2.x.map(Math.abs))).toBeLessThanOrEqual(16 * STANDARD_GRAVITY_MPS2 * 1.000001);
    expect(greatest(left.gyr_radps!.y.map(Math.abs))).toBeLessThanOrEqual(((1000 * Math.PI) / 180) * 1.000001);
  });

  it('keeps truth the same whatever the sensor', () => {
    const other = generateRepetition({
      seed: 5,
      runner: { full_speed_mps: 9.5, strike: 0.6, contact_factor: 1, step_variation: 0.02 },
      repetitions: [{ distance_m: 60 }],
      sensor: { rate_hz: 400, lost_share: 0.05, has_gyroscope: false },
    });
    expect(other.truth).toEqual(sprint.truth);
    expect(other.sensors.foot.left.gaps.length).toBeGreaterThan(3);
    expect(other.sensors.foot.left.gyr_radps).toBeNull();
  });

  it('makes what is not running without a number missing', () => {
    for (const kind of OTHER_ACTIVITIES) {
      const { sensors } = generateOtherActivity(kind, 2, { rate_hz: 200 });
      for (const block of [sensors.foot.left, sensors.shank.right]) {
        expect(block.acc_mps2.z.every(Number.isFinite)).toBe(true);
        expect(block.time_s[0]).toBe(0);
      }
    }
  });
});
