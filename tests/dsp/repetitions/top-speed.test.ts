import { describe, expect, it } from 'vitest';
import { topSpeed } from '../../../dsp/repetitions/top-speed.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { because } from '../../../shared/reason.ts';
import { contactRows } from '../../helpers/contact-rows.ts';

/** Steps that get faster, 5 to 9 m/s, with speeds known to a share of themselves. */
function speeding(source: Contact['spatial_source'], share_u: number): Contact[] {
  const rows = contactRows(
    Array.from({ length: 9 }, (_, i) => ({
      side: i % 2 === 0 ? 'left' : 'right',
      touchdown_s: 1 + 0.23 * i,
      toe_off_s: 1.1 + 0.23 * i,
    })),
  );
  rows.forEach((row, i) => {
    row.speed_mps = 5 + 0.5 * i;
    row.speed_mps_u = share_u * row.speed_mps;
    row.spatial_source = source;
  });
  return rows;
}

const refuse = (rows: Contact[], reason: 'swing_beyond_accelerometer' | 'foot_not_at_rest'): Contact[] => {
  for (const row of rows.slice(4)) {
    row.speed_mps = null;
    row.reasons.step_length_m = because(reason);
  }
  return rows;
};

describe('top speed', () => {
  it('from foot sensors in range, and from times however clipped the strides, is the greatest of the steps', () => {
    expect(topSpeed(speeding('foot_sensor', 0.02))).toEqual({ speed_max_mps: 9, speed_max_mps_u: 0.18 });
    expect(topSpeed(refuse(speeding('timing', 0.02), 'swing_beyond_accelerometer')).speed_max_mps).toBe(6.5);
  });

  it('from foot sensors whose fastest strides were clipped, or hardly known, is not given, with a reason', () => {
    const clipped = topSpeed(refuse(speeding('foot_sensor', 0.02), 'swing_beyond_accelerometer'));
    expect(clipped).toEqual({
      speed_max_mps: null,
      speed_max_mps_u: null,
      reason: because('fastest_strides_clipped'),
    });
    expect(topSpeed(speeding('foot_sensor', 0.13)).reason).toEqual(because('top_speed_hardly_known'));
    expect(topSpeed(speeding('foot_sensor', 0.13)).speed_max_mps).toBeNull();
    // Strides refused for another reason do not say that the fastest are missing.
    expect(topSpeed(refuse(speeding('foot_sensor', 0.02), 'foot_not_at_rest')).speed_max_mps).toBe(6.5);
  });
});
