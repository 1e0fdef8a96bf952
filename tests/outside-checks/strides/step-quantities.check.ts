import { describe, expect, test } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { fillStrides } from '../../../dsp/strides/index.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { contactRows, type Instants } from '../../helpers/contact-rows.ts';

/** Contacts of even running: alternate feet, every step alike. */
function evenRunning(contact_s: number, flight_s: number, steps = 8): Instants[] {
  return Array.from({ length: steps }, (_, i) => {
    const touchdown_s = 1 + i * (contact_s + flight_s);
    return { side: i % 2 === 0 ? 'left' : 'right', touchdown_s, toe_off_s: touchdown_s + contact_s };
  });
}

const onBelt = (rows: ReturnType<typeof contactRows>, belt_speed_mps: number) =>
  fillStrides(rows, {
    sensors: [],
    travel: 'treadmill',
    first_movement_s: null,
    first_movement_s_u: null,
    course: { ...UNKNOWN_COURSE, belt_speed_mps },
    conditions: UNKNOWN_CONDITIONS,
    settings: DEFAULT_SETTINGS.strides,
  });

describe('identities between step quantities', () => {
  test('hold to rounding in every row', () => {
    const rows = contactRows(evenRunning(0.105, 0.13));
    onBelt(rows, 9.5);
    for (const row of rows.slice(0, -2)) {
      const [tc, tf] = [row.contact_time_ms! / 1000, row.flight_time_ms! / 1000];
      expect(row.speed_mps!).toBeCloseTo(row.step_length_m! * row.step_rate_hz!, 12);
      expect(row.step_time_ms! / 1000).toBeCloseTo(tc + tf, 12);
      expect(row.step_rate_hz!).toBeCloseTo(1 / (tc + tf), 12);
      expect(row.stride_length_m!).toBeCloseTo(2 * row.step_length_m!, 12);
      expect(row.duty_factor!).toBeCloseTo(tc / (2 * (tc + tf)), 12);
      expect(row.swing_time_ms! / 1000).toBeCloseTo(tc + 2 * tf, 12);
      expect(row.contact_length_m!).toBeCloseTo(row.speed_mps! * tc, 12);
      expect(row.vertical_force_bw!).toBeCloseTo((tc + tf) / tc, 12);
      expect(row.vertical_force_bw!).toBeCloseTo(1 / (2 * row.duty_factor!), 12);
    }
  });

  // Karamanidis and Arampatzis 2005, J Exp Biol, table 4: contact and flight ms, step length cm, stride frequency, duty
  // factor.
  test.each([
    ['older runners', 276, 80, 93.9, 1.41, 38.9],
    ['older inactive', 284, 83, 99.1, 1.38, 38.8],
    ['young runners', 271, 112, 99.5, 1.31, 35.5],
    ['young inactive', 282, 104, 103.6, 1.28, 36.7],
  ])('reproduce the published group means: %s', (_, contact, flight, step_cm, stride_hz, duty) => {
    const rows = contactRows(evenRunning(contact / 1000, flight / 1000));
    // The running speed of the table follows from its own step length and stride frequency.
    onBelt(rows, (2 * step_cm * stride_hz) / 100);
    const row = rows[0];
    expect(Math.abs(100 * row.duty_factor! - duty)).toBeLessThan(0.2);
    expect(Math.abs(1000 / row.stride_time_ms! - stride_hz)).toBeLessThan(0.02);
    expect(Math.abs(100 * row.step_length_m! - step_cm)).toBeLessThan(0.015 * step_cm);
  });

  test('Zagreb 2011, 70 to 90 m: duty factor 18.6 %, and speed from step length and rate within the table’s own 4 %', () => {
    // Coh et al. 2018, Kinesiology 50(2):172-180: contact 86 ms, flight 145 ms, 2.70 m, 4.36 Hz, 12.14 m/s.
    const rows = contactRows(evenRunning(0.086, 0.145));
    onBelt(rows, 12.14);
    expect(100 * rows[0].duty_factor!).toBeCloseTo(18.6, 1);
    expect(Math.abs(rows[0].step_rate_hz! / 4.36 - 1)).toBeLessThan(0.04);
    expect(Math.abs(rows[0].step_length_m! / 2.7 - 1)).toBeLessThan(0.04);
  });
});

describe('step length from two gates (procedure of de Ruiter and van Dieen 2019, doi 10.3390/sports7090202)', () => {
  // Worked example computed for this project: 30 m 4.35 s, 60 m 7.60 s; foot strikes from the start.
  const STRIKES = [0.35, 0.62, 0.87, 1.11, 1.345, 1.575, 1.8, 2.022, 2.242, 2.46, 2.677, 2.893];
  const LENGTHS = [
    0.859771416, 1.105695743, 1.28610714, 1.432118132, 1.536619116, 1.608996018, 1.671814153, 1.724821046, 1.764348255,
    1.801400725, 1.830143613,
  ];
  const START_S = 3;
  const rows = contactRows(
    STRIKES.map((t, i) => ({
      side: i % 2 === 0 ? 'left' : 'right',
      touchdown_s: START_S + t,
      toe_off_s: START_S + t + 0.12,
    })),
  );
  const result = fillStrides(rows, {
    sensors: [],
    travel: 'overground',
    first_movement_s: START_S,
    first_movement_s_u: 0.01,
    course: {
      ...UNKNOWN_COURSE,
      distance_m: 60,
      time_s: 7.6,
      splits: [{ distance_m: 30, split_time_s: 4.35 }],
      timing_method: 'touch_pad_beam',
    },
    conditions: UNKNOWN_CONDITIONS,
    settings: DEFAULT_SETTINGS.strides,
  });

  test('gives every step', () => {
    LENGTHS.forEach((length, i) => {
      expect(rows[i].step_length_m!).toBeCloseTo(length, 7);
      expect(rows[i].speed_mps!).toBeCloseTo(length / (STRIKES[i + 1] - STRIKES[i]), 6);
    });
    expect(rows[0].distance_m!).toBeCloseTo(0.448394042, 7);
    expect(rows[11].distance_m!).toBeCloseTo(17.070229398, 6);
  });

  test('says its uncertainty and where the course ends', () => {
    for (const row of rows.slice(0, 11)) {
      // The published error of the method is 5.7 to 8.0 cm against video; a step is never claimed better than 1 cm.
      expect(row.step_length_m_u!).toBeGreaterThan(0.01);
      expect(row.step_length_m_u!).toBeLessThan(0.08);
      expect(row.spatial_source).toBe('timing');
    }
    expect(result.course_end_s).toBeCloseTo(START_S + 7.6, 9);
    expect(result.speed_curve!.from).toBe('splits');
    expect(result.speed_curve!.vmax_mps).toBeCloseTo(9.301538, 6);
  });
});
