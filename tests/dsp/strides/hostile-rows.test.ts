/** Whatever contacts come in, what goes out is a finite number or null with a reason, never NaN, and nothing throws. */
import { describe, expect, test } from 'vitest';
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { fillStrides } from '../../../dsp/strides/index.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { type Contact, type Course, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import type { Mounting, Side } from '../../../shared/words.ts';
import { contactRows } from '../../helpers/contact-rows.ts';
import { uniform } from '../../helpers/random.ts';

const { sensors, truth } = generateRepetition({
  seed: 3,
  repetitions: [{ effort: 0.9, distance_m: 25 }],
  sensor: { rate_hz: 250 },
  internal_rate_hz: 2000,
});

const COURSES: Record<string, Course> = {
  unknown: UNKNOWN_COURSE,
  belt: { ...UNKNOWN_COURSE, belt_speed_mps: 4 },
  time: { ...UNKNOWN_COURSE, distance_m: 25, time_s: 4.1 },
  'gate and splits': {
    ...UNKNOWN_COURSE,
    clock: 'gate',
    distance_m: 25,
    time_s: 3.8,
    splits: [
      { distance_m: 10, split_time_s: 1.9 },
      { distance_m: 5, split_time_s: 1.2 },
    ],
  },
  'times that fall': {
    ...UNKNOWN_COURSE,
    distance_m: 25,
    time_s: 2,
    splits: [{ distance_m: 10, split_time_s: 3 }],
  },
  flying: { ...UNKNOWN_COURSE, start_style: 'flying', distance_m: 10, time_s: 1.3 },
  'zero time': { ...UNKNOWN_COURSE, distance_m: 25, time_s: 0 },
};

function recordings(mounting: Mounting, change: (r: SensorRecording) => SensorRecording): SensorRecording[] {
  return (['left', 'right'] as const).map((side) =>
    change({
      side,
      mounting,
      samples: sensors[mounting][side],
      clock_offset_s: 0,
      clock_drift: 0,
      clock_offset_u_s: 0,
    }),
  );
}

/** Contacts with some missing, some without toe-off, some moved, some on the wrong side. */
function spoiltRows(seed: number): Contact[] {
  const chance = uniform(seed);
  const kept = truth.contacts.filter(() => chance() > 0.15);
  const moved = kept.map((c) => {
    const shift = chance() < 0.1 ? (chance() - 0.5) * 0.1 : 0;
    const side = chance() < 0.1 ? ('left' as const) : c.side;
    return { side, touchdown_s: c.touchdown_s + shift, toe_off_s: c.toe_off_s + shift };
  });
  const rows = contactRows(moved.sort((a, b) => a.touchdown_s - b.touchdown_s));
  for (const row of rows) {
    if (chance() > 0.1) continue;
    Object.assign(row, { toe_off_s: null, contact_time_ms: null, flight_time_ms: null, swing_time_ms: null });
  }
  return rows;
}

function expectHonest(rows: Contact[]): void {
  for (const row of rows) {
    for (const [field, value] of Object.entries(row)) {
      if (typeof value === 'number') expect(Number.isFinite(value), `${field} of step ${row.step}`).toBe(true);
      if (field.endsWith('_u') && typeof value === 'number') expect(value, field).toBeGreaterThanOrEqual(0);
    }
  }
}

const ALL = { ...UNKNOWN_CONDITIONS, body_mass_kg: 60, stature_m: 1.7, leg_length_m: 0.9 };

describe('spoilt contacts', () => {
  test.each(Object.keys(COURSES))('give honest rows: course %s', (name) => {
    for (const mounting of ['foot', 'shank'] as const) {
      const prepared = recordings(mounting, (r) => r).map((recording) => ({
        recording,
        signals: sensorSignals(recording, DEFAULT_SETTINGS),
      }));
      for (let seed = 0; seed < 6; seed++) {
        const rows = spoiltRows(seed);
        fillStrides(rows, {
          sensors: seed === 5 ? [] : prepared,
          travel: 'unknown',
          first_movement_s: seed % 2 === 0 ? truth.repetitions[0].first_movement_s : null,
          first_movement_s_u: 0.05,
          course: COURSES[name],
          conditions: ALL,
          settings: DEFAULT_SETTINGS.strides,
        });
        expectHonest(rows);
      }
    }
  });

  test.each<[string, (r: SensorRecording) => SensorRecording]>([
    ['a sensor without data where the contacts are', (r) => ({ ...r, clock_offset_s: 100 })],
    ['sides unknown', (r) => ({ ...r, side: 'unknown' as Side })],
    ['both sensors on one side', (r) => ({ ...r, side: 'left' as Side })],
    [
      'a gyroscope that reads nothing',
      (r) => {
        const still = new Float64Array(r.samples.time_s.length);
        return { ...r, samples: { ...r.samples, gyr_radps: { x: still, y: still, z: still } } };
      },
    ],
    [
      'holes in a channel',
      (r) => {
        const x = r.samples.acc_mps2.x.map((v, i) => (i % 97 < 20 ? Number.NaN : v));
        return { ...r, samples: { ...r.samples, acc_mps2: { ...r.samples.acc_mps2, x } } };
      },
    ],
  ])('%s: honest rows', (_, change) => {
    for (const mounting of ['foot', 'shank'] as const) {
      const prepared = recordings(mounting, change).map((recording) => ({
        recording,
        signals: sensorSignals(recording, DEFAULT_SETTINGS),
      }));
      for (const rows of [contactRows(truth.contacts), contactRows([truth.contacts[2]]), []]) {
        fillStrides(rows, {
          sensors: prepared,
          travel: 'unknown',
          first_movement_s: null,
          first_movement_s_u: null,
          course: COURSES.time,
          conditions: ALL,
          settings: DEFAULT_SETTINGS.strides,
        });
        expectHonest(rows);
      }
    }
  });
});
