/**
 * The foot sensor's strides and angles against belts, markers and motion capture, with the reference's own contacts, so
 * that what is judged here is not the detector.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { sensorSignals } from '../../../dsp/events/sensor-signals.ts';
import { mean, standardDeviation } from '../../../dsp/numeric/statistics.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings.ts';
import { integrateStride } from '../../../dsp/strides/foot-stride.ts';
import { fillStrides } from '../../../dsp/strides/index.ts';
import { restInstant } from '../../../dsp/strides/rest-instants.ts';
import { type Contact, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import { contactRows } from '../../helpers/contact-rows.ts';
import { recordingsFolder } from '../../helpers/recordings.ts';
import { forcePlateCases, readSamples, readTable } from '../validation/force-plate-cases.ts';

const folder = recordingsFolder();
/** One speed of each runner keeps this short; `npm run validate` runs them all. */
const RECORDINGS = ['RBDS001-T35', 'RBDS002-T45', 'RBDS013-T35', 'RBDS014-T25', 'RBDS018-T45', 'davis'];
const ANGLES = [
  'foot_pitch_touchdown_deg',
  'foot_pitch_toe_off_deg',
  'foot_progression_deg',
  'shank_rotation_deg',
] as const;

/** Rows of the reference's contacts, filled in as if nothing were known of belt or course. */
function strideRows(sensors: SensorRecording[], contacts: Parameters<typeof contactRows>[0]): Contact[] {
  const rows = contactRows(contacts);
  fillStrides(rows, {
    sensors: sensors.map((recording) => ({ recording, signals: sensorSignals(recording, DEFAULT_SETTINGS) })),
    travel: 'unknown',
    first_movement_s: null,
    first_movement_s_u: null,
    course: UNKNOWN_COURSE,
    conditions: UNKNOWN_CONDITIONS,
  });
  return rows;
}

/** Errors and errors over stated uncertainty, by field. */
class Errors {
  private readonly found = new Map<string, { error: number; share: number }[]>();

  add(field: string, error: number, u: number): void {
    this.found.set(field, [...(this.found.get(field) ?? []), { error, share: error / u }]);
  }

  of(field: string) {
    const all = this.found.get(field) ?? [];
    const errors = all.map((e) => e.error);
    const covered = all.filter((e) => Math.abs(e.share) <= 1.96).length / all.length;
    return { n: all.length, bias: mean(errors), sd: standardDeviation(errors), covered };
  }
}

describe.skipIf(folder === null)('on the treadmill (skipped where the recordings are absent)', () => {
  test.each(RECORDINGS)('%s: stride length within 2 +- 4 % of the belt, angles near the markers', async (name) => {
    const errors = new Errors();
    for await (const recording of forcePlateCases(folder!, name)) {
      const belt = recording.course.belt_speed_mps!;
      const table = readTable(join(folder!, recording.name, 'contacts.csv'));
      const rows = strideRows(recording.sensors, recording.reference);
      rows.forEach((row, i) => {
        if (recording.mounting === 'foot' && row.stride_length_m !== null && row.stride_time_ms! < 1000) {
          const way = (belt * row.stride_time_ms!) / 1000;
          errors.add('stride', 100 * (row.stride_length_m / way - 1), (100 * row.stride_length_m_u!) / way);
        }
        for (const field of ANGLES) {
          const value = row[field];
          if (value !== null && table[i][field] !== '')
            errors.add(field, value - Number(table[i][field]), row[`${field}_u`]!);
        }
      });
    }
    const stride = errors.of('stride');
    expect(stride.n).toBeGreaterThan(20);
    expect(Math.abs(stride.bias)).toBeLessThan(2);
    expect(stride.sd).toBeLessThan(4);
    expect(stride.covered).toBeGreaterThan(0.9);
    // The markers' angles are good to 2 deg; the zero of the progression is the markers' and may be off by several.
    expect(Math.abs(errors.of('foot_pitch_touchdown_deg').bias)).toBeLessThan(4);
    expect(errors.of('foot_pitch_touchdown_deg').sd).toBeLessThan(3);
    expect(Math.abs(errors.of('foot_pitch_toe_off_deg').bias)).toBeLessThan(4);
    expect(errors.of('foot_pitch_toe_off_deg').sd).toBeLessThan(2);
    expect(Math.abs(errors.of('foot_progression_deg').bias)).toBeLessThan(8);
    expect(errors.of('foot_progression_deg').sd).toBeLessThan(5);
    expect(Math.abs(errors.of('shank_rotation_deg').bias)).toBeLessThan(3);
    expect(errors.of('shank_rotation_deg').sd).toBeLessThan(2);
  });
});

describe.skipIf(folder === null)(
  'a real shoe sensor beside motion capture (skipped where the recordings are absent)',
  () => {
    // Wagstaff, Peretroukhin and Kelly 2021, doi 10.21227/v1z6-9z84: stride length to 1 cm, gyroscope full at about 9.5
    // rad/s.
    test('strides within 2 +- 4 % where the gyroscope was in range, and none where it was not', async () => {
      const loops = join(folder!, 'shoe-jog-loops');
      const strides = readTable(join(loops, 'strides.csv'));
      const errors: number[] = [];
      let refused = 0;
      for (const file of readdirSync(loops).filter((name) => name.startsWith('run_'))) {
        const samples = await readSamples(join(loops, file));
        const first_s = Number(
          gunzipSync(readFileSync(join(loops, file)))
            .toString('utf8')
            .split('\n')[1]
            .split(',')[0],
        );
        const recording: SensorRecording = {
          side: 'right',
          mounting: 'foot',
          samples: { ...samples, gyr_range_radps: 9.5 },
          clock_offset_s: 0,
          clock_drift: 0,
          clock_offset_u_s: 0,
        };
        const signals = sensorSignals(recording, DEFAULT_SETTINGS);
        // The reference's mid-stances, taken as contacts of usual length around them; steps without a stance are starts
        // and stops.
        const rest = (text: string): number | null =>
          restInstant(signals, Number(text) - first_s - 0.12, Number(text) - first_s + 0.16);
        for (const s of strides.filter((row) => row.file === file && Number(row.slow_foot_phase_s) >= 0.15)) {
          const [from, to] = [rest(s.t_midstance_start_s), rest(s.t_midstance_end_s)];
          if (from === null || to === null) continue;
          const stride = integrateStride(signals, from, to, null);
          if ('reason' in stride) refused++;
          else errors.push(100 * (stride.length_m / Number(s.stride_length_chord_m) - 1));
        }
      }
      expect(errors.length).toBeGreaterThan(140);
      expect(refused).toBeGreaterThan(5);
      expect(Math.abs(mean(errors))).toBeLessThan(2);
      expect(standardDeviation(errors)).toBeLessThan(4);
    });
  },
);
