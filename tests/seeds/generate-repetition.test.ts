import { describe, expect, it } from 'vitest';
import { generateRepetition } from '../../seeds/generate-repetition.ts';

describe('generateRepetition', () => {
  const sprint = generateRepetition({ seed: 11, runner: { full_speed_mps: 9.2 }, internal_rate_hz: 2000 });
  const { contacts, repetitions } = sprint.truth;

  it('gives the same bytes for the same seed and others for another', () => {
    const again = generateRepetition({ seed: 11, runner: { full_speed_mps: 9.2 }, internal_rate_hz: 2000 });
    expect(again.sensors.foot.left.acc_mps2.x).toEqual(sprint.sensors.foot.left.acc_mps2.x);
    const other = generateRepetition({ seed: 12, runner: { full_speed_mps: 9.2 }, internal_rate_hz: 2000 });
    expect(other.truth.contacts[0].touchdown_s).not.toBe(contacts[0].touchdown_s);
  });

  it('alternates the feet, with flight between all contacts', () => {
    contacts.slice(1).forEach((contact, i) => {
      expect(contact.side).not.toBe(contacts[i].side);
      expect(contact.touchdown_s).toBeGreaterThan(contacts[i].toe_off_s);
    });
  });

  it('reads one standard gravity and no rotation while standing', () => {
    const { foot } = sprint.sensors;
    const norms = Array.from({ length: 800 }, (_, i) =>
      Math.hypot(foot.left.acc_mps2.x[i], foot.left.acc_mps2.y[i], foot.left.acc_mps2.z[i]),
    );
    expect(norms.reduce((a, b) => a + b) / norms.length).toBeCloseTo(9.80665, 0);
  });

  it('moves the body by the sum of its steps', () => {
    const sum = contacts.reduce((total, contact) => total + (contact.step_length_m ?? 0), 0);
    expect(sum).toBeCloseTo(contacts[contacts.length - 1].distance_m - contacts[0].distance_m, 6);
    expect(repetitions[0].time_s).toBeGreaterThan(4.9);
    expect(repetitions[0].time_s).toBeLessThan(6.2);
  });
});
