import { Ajv } from 'ajv';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { analyse } from '../../dsp/analyse.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import { CONTACT_COLUMNS, CONTACT_FIELDS, REPETITION_FIELDS, STEPS_CSV_COLUMNS } from '../../shared/fields.ts';
import { speechOf } from '../../shared/messages/speeches.ts';
import { tellAll } from '../../shared/messages/tell-all.ts';
import { RepetitionResult, SensorQuality } from '../../shared/schemas/analysis.ts';
import { ContactSchema } from '../../shared/schemas/contact.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

/** Files only grow at their end: a column that somebody's table was made with stays where it was. */
const RELEASED = `repetition,step,side,touchdown_s,toe_off_s,contact_time_ms,flight_time_ms,swing_time_ms,step_time_ms,
step_rate_hz,step_length_m,speed_mps,distance_m,phase,confidence,touchdown_s_u,toe_off_s_u,contact_time_ms_u,
flight_time_ms_u,swing_time_ms_u,step_time_ms_u,step_rate_hz_u,step_length_m_u,speed_mps_u,distance_m_u,
assumes_symmetry,spatial_source,touchdown_raw_s,toe_off_raw_s,duty_factor,duty_factor_u,stride_time_ms,stride_time_ms_u,
stride_length_m,stride_length_m_u,contact_length_m,foot_pitch_touchdown_deg,foot_pitch_touchdown_deg_u,
foot_pitch_toe_off_deg,foot_pitch_toe_off_deg_u,foot_progression_deg,foot_progression_deg_u,shank_rotation_deg,
shank_rotation_deg_u,shank_angle_touchdown_deg,shank_angle_touchdown_deg_u,heel_recovery_height_m,
heel_recovery_height_m_u,swing_fold_deg,swing_fold_deg_u,peak_swing_rate_dps,peak_contact_rate_dps,vertical_force_bw,
vertical_force_bw_u,vertical_stiffness_kn_per_m,vertical_stiffness_kn_per_m_u,leg_stiffness_kn_per_m,
leg_stiffness_kn_per_m_u`
  .replaceAll('\n', '')
  .split(',');

describe('the dictionary of fields', () => {
  it('keeps the columns of steps.csv in the order they were released in', () => {
    expect(STEPS_CSV_COLUMNS.slice(0, RELEASED.length)).toEqual(RELEASED);
    const reasons = Object.keys(CONTACT_FIELDS).map((name) => `${name}_reason`);
    expect([...STEPS_CSV_COLUMNS].sort()).toEqual([...CONTACT_COLUMNS, ...reasons].sort());
  });

  it.each(Object.entries({ ...CONTACT_FIELDS, ...REPETITION_FIELDS }))(
    'says of %s all that a reader needs',
    (name, f) => {
      expect(name).toMatch(/^[a-z0-9]+(_[a-z0-9]+)*$/);
      for (const text of [f.label, f.unit, f.definition, f.source]) expect(text.length).toBeGreaterThan(0);
      expect(f.definition).toMatch(/\.$|:|own$/);
    },
  );

  it('describes what an analysis answers, and nothing that it does not', () => {
    const made = generateRepetition({
      seed: 3,
      sensor: { rate_hz: 500 },
      repetitions: [{ effort: 1, distance_m: 20 }],
    });
    const { repetitions, quality } = analyse({
      sensors: (['left', 'right'] as const).map((side) => ({
        side,
        mounting: 'foot' as const,
        samples: made.sensors.foot[side],
        clock_offset_s: 0,
        clock_drift: 0,
        clock_offset_u_s: 0,
      })),
      course: { ...UNKNOWN_COURSE, distance_m: 20, time_s: 3.4 },
      conditions: { ...UNKNOWN_CONDITIONS, body_mass_kg: 62, stature_m: 1.71 },
    });
    const ajv = new Ajv({ strict: false });
    const faults = (schema: object, value: unknown) => {
      // As it leaves the API: reasons in words.
      ajv.validate(schema, JSON.parse(JSON.stringify(tellAll(value, speechOf('en')))));
      return ajv.errors ?? [];
    };
    expect(faults(RepetitionResult, repetitions[0])).toEqual([]);
    expect(quality.flatMap((one) => faults(SensorQuality, one))).toEqual([]);
    expect(Object.keys(repetitions[0].contacts[0]).sort()).toEqual(Object.keys(ContactSchema.properties).sort());
    expect(faults(RepetitionResult, { ...repetitions[0], contacts: [{ step: 'one' }] })).not.toEqual([]);
  });
});

describe('the description of the API', () => {
  let api: TestApi;
  beforeAll(async () => {
    api = await openTestApi();
  });
  afterAll(() => api.close());

  it('shows the fields of a contact with unit and definition', async () => {
    const { body } = await api.call('GET', '/docs/json');
    const answer = body.paths['/api/repetitions/{repetition_id}/profile'].get.responses['200'];
    const contact = answer.content['application/json'].schema.properties.contacts.items;
    expect(Object.keys(contact.properties)).toEqual(Object.keys(ContactSchema.properties));
    expect(contact.required).toContain('contact_time_ms');
    expect(JSON.stringify(contact.properties.contact_time_ms)).toContain(
      'Toe-off minus touchdown of the same foot. Unit: ms.',
    );
  });
});
