import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { fillStiffness } from '../../../dsp/strides/stiffness.ts';
import type { Contact } from '../../../shared/analysis.ts';

const row = (speed_mps: number | null) =>
  ({
    contact_time_ms: 110,
    contact_time_ms_u: 3,
    flight_time_ms: 120,
    step_time_ms: 230,
    step_time_ms_u: 2,
    speed_mps,
    speed_mps_u: 0.1,
    vertical_stiffness_kn_per_m: null,
    leg_stiffness_kn_per_m: null,
    reasons: {},
  }) as unknown as Contact;

function filled(speeds: (number | null)[], body_mass_kg: number | null = 70): Contact[] {
  const rows = speeds.map(row);
  fillStiffness(rows, body_mass_kg, { length_m: 0.95, length_m_u: 0.01 }, DEFAULT_SETTINGS.strides);
  return rows;
}

// The sine-wave model is one of steady running (Morin et al. 2005, J Appl Biomech 21:167-180).
describe('stiffness', () => {
  it('is empty with its reason where the speed changes by more than 3 % from step to step, and given where it does not', () => {
    const rows = filled([5, 6, 7, 9, 9.1, 9.15]);
    expect(rows.map((contact) => contact.vertical_stiffness_kn_per_m !== null)).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
    expect(rows[0].reasons.vertical_stiffness_kn_per_m).toMatchObject({ because: 'not_steady' });
    expect(rows[0].reasons.leg_stiffness_kn_per_m).toMatchObject({ because: 'not_steady' });
    expect(rows[4].reasons).toEqual({});
  });

  it('holds the last contact against the one before it', () => {
    expect(filled([9, 9, 7]).map((contact) => contact.leg_stiffness_kn_per_m !== null)).toEqual([true, false, false]);
  });

  it('leaves the mean force, whose model asks for no steady speed', () => {
    expect(filled([5, 7])[0].vertical_force_bw).toBeCloseTo(230 / 110, 9);
  });
});
