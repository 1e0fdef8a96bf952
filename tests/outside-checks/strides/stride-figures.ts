/**
 * Errors of strides and angles against belts, markers and motion capture, with the reference's own contacts, so that the
 * detector stays out of it. The checks hold these to limits; `npm run validate:strides` prints them.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { mean, standardDeviation } from '../../../dsp/numeric/statistics.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { integrateStride } from '../../../dsp/strides/foot-stride.ts';
import { fillStrides } from '../../../dsp/strides/index.ts';
import { restInstant } from '../../../dsp/strides/rest-instants.ts';
import { type Contact, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import { contactRows } from '../../helpers/contact-rows.ts';
import { forcePlateCases, readSamples, readTable } from '../validation/force-plate-cases.ts';
import { timeScaled } from '../validation/time-scaled.ts';
import { vary } from '../validation/variants.ts';

const ANGLES = [
  'foot_pitch_touchdown_deg',
  'foot_pitch_toe_off_deg',
  'foot_progression_deg',
  'shank_rotation_deg',
] as const;

/** Bias, spread and how many errors lie within 1.96 stated uncertainties. */
export interface Figures {
  n: number;
  bias: number;
  sd: number;
  covered: number;
}

/** Errors beside their stated uncertainties, by quantity. */
export class Errors {
  private readonly found = new Map<string, { error: number; u: number }[]>();

  add(quantity: string, error: number, u: number): void {
    this.found.set(quantity, [...(this.found.get(quantity) ?? []), { error, u }]);
  }

  addAll(other: Errors): void {
    for (const [quantity, all] of other.found) for (const { error, u } of all) this.add(quantity, error, u);
  }

  get quantities(): string[] {
    return [...this.found.keys()];
  }

  of(quantity: string): Figures {
    const all = this.found.get(quantity) ?? [];
    const errors = all.map((e) => e.error);
    const covered = all.filter(({ error, u }) => Math.abs(error) <= 1.96 * u).length / all.length;
    return { n: all.length, bias: mean(errors), sd: standardDeviation(errors), covered };
  }
}

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
    settings: DEFAULT_SETTINGS.strides,
  });
  return rows;
}

/** Stride length in per cent of the belt's way, angles in degrees, over both mountings of the recordings named so. */
export async function treadmillErrors(folder: string, name: string): Promise<Errors> {
  const errors = new Errors();
  for await (const recording of forcePlateCases(folder, name)) {
    const belt = recording.course.belt_speed_mps;
    const table = readTable(join(folder, recording.name, 'contacts.csv'));
    strideRows(recording.sensors, recording.reference).forEach((row, i) => {
      const near = row.stride_time_ms !== null && row.stride_time_ms < 1000;
      if (belt !== null && near && recording.mounting === 'foot' && row.stride_length_m !== null) {
        const way = (belt * row.stride_time_ms!) / 1000;
        errors.add('stride_length_%', 100 * (row.stride_length_m / way - 1), (100 * row.stride_length_m_u!) / way);
      }
      for (const field of ANGLES) {
        const value = row[field];
        if (value === null || table[i][field] === '') continue;
        errors.add(field, value - Number(table[i][field]), row[`${field}_u`]!);
      }
    });
  }
  return errors;
}

/**
 * Stride length of the same feet played faster, to a sprint's swings, and clipped at an accelerometer's range, in per cent
 * of the belt's way; and how many strides were refused, of how many.
 */
export async function fasterErrors(
  folder: string,
  name: string,
  scale: number,
  range_g: '16 g' | null,
): Promise<{ errors: Errors; refused: number; strides: number }> {
  const errors = new Errors();
  let [refused, strides] = [0, 0];
  for await (const recorded of forcePlateCases(folder, name)) {
    if (recorded.mounting !== 'foot' || recorded.course.belt_speed_mps === null) continue;
    const faster = timeScaled(recorded, scale);
    const { sensors, reference } = range_g === null ? faster : vary(faster, range_g);
    strideRows(sensors, reference).forEach((row, i) => {
      const truth = reference[i].stride_length_m;
      if (truth === null || row.stride_time_ms === null) return;
      strides++;
      if (row.stride_length_m === null) refused++;
      else
        errors.add('stride_length_%', 100 * (row.stride_length_m / truth - 1), (100 * row.stride_length_m_u!) / truth);
    });
  }
  return { errors, refused, strides };
}

/**
 * Strides of a real shoe sensor with motion capture's length: Wagstaff, Peretroukhin and Kelly 2021, doi 10.21227/v1z6-9z84: length to
 * 1 cm, gyroscope full at about 9.5 rad/s.
 */
export async function shoeStrides(
  folder: string,
): Promise<{ stride: ReturnType<typeof integrateStride>; truth_m: number }[]> {
  const loops = join(folder, 'shoe-jog-loops');
  const strides = readTable(join(loops, 'strides.csv'));
  const found: { stride: ReturnType<typeof integrateStride>; truth_m: number }[] = [];
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
    // The reference's mid-stances, taken as contacts of usual length around them.
    const rest = (text: string): number | null =>
      restInstant(signals, Number(text) - first_s - 0.12, Number(text) - first_s + 0.16, DEFAULT_SETTINGS.strides);
    // Strides without a stance are starts and stops.
    for (const s of strides.filter((row) => row.file === file && Number(row.slow_foot_phase_s) >= 0.15)) {
      const [from, to] = [rest(s.t_midstance_start_s), rest(s.t_midstance_end_s)];
      if (from === null || to === null) continue;
      const stride = integrateStride(signals, from, to, null, DEFAULT_SETTINGS.strides);
      found.push({ stride, truth_m: Number(s.stride_length_chord_m) });
    }
  }
  return found;
}

/** The same strides' errors in per cent of motion capture's, and how many were refused for clipping. */
export async function shoeSensorErrors(folder: string): Promise<{ errors: Errors; refused: number }> {
  const errors = new Errors();
  let refused = 0;
  for (const { stride, truth_m } of await shoeStrides(folder)) {
    if ('reason' in stride) refused++;
    else errors.add('stride_length_%', 100 * (stride.length_m / truth_m - 1), (100 * stride.length_m_u) / truth_m);
  }
  return { errors, refused };
}
