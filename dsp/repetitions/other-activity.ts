import { instantOf, sampleAt } from '../signals/sensor-time.ts';
import type { OtherActivity, RepetitionResult } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import type { SidedContact } from './contact-row.ts';

interface Sensor {
  recording: SensorRecording;
  signals: SensorSignals;
  motion_level: Float64Array;
}

/**
 * Names the stretches of a recording that are no repetition, second by second: standing (all sensors still), walking
 * (steps whose feet are down for more than half of the stride), dropped (free fall, then a blow), jumping (free
 * fall without leg swing), other. Neighbouring seconds of one kind make one stretch.
 */
export function otherActivity(
  repetitions: RepetitionResult[],
  not_running: SidedContact[],
  sensors: Sensor[],
  settings: AnalysisSettings,
): OtherActivity[] {
  const end = Math.max(0, ...sensors.map((sensor) => instantOf(sensor.signals.length - 1, sensor)));
  const out: OtherActivity[] = [];
  for (let from = 0; from < end; from += 1) {
    const to = Math.min(end, from + 1);
    if (repetitions.some(({ start_s, end_s }) => start_s < to && end_s > from)) continue;
    const kind = kindOf(from, to, not_running, sensors, settings);
    const last = out.at(-1);
    if (last && last.kind === kind && last.end_s === from) last.end_s = to;
    else out.push({ kind, start_s: from, end_s: to });
  }
  return out;
}

function kindOf(
  from: number,
  to: number,
  not_running: SidedContact[],
  sensors: Sensor[],
  settings: AnalysisSettings,
): OtherActivity['kind'] {
  if (sensors.every((sensor) => meanOver(sensor, sensor.motion_level, from, to) < 1)) return 'standing';
  const { fall_mps2, fall_s, blow_mps2 } = settings.activity;
  const falls = sensors.filter((sensor) => longestBelow(sensor, from, to, fall_mps2) >= fall_s);
  if (falls.some((sensor) => greatest(sensor, from, to + 0.5) > blow_mps2)) return 'dropped';
  const steps = not_running.filter((contact) => contact.touchdown_s < to && (contact.toe_off_s ?? to) > from);
  const walking = steps.some(
    (c) => c.toe_off_s !== null && c.toe_off_s - c.touchdown_s > settings.running.max_contact_s,
  );
  if (walking) return 'walking';
  return falls.length > 0 ? 'jumping' : 'other';
}

function indices(sensor: Sensor, from: number, to: number): [number, number] {
  const index = (t: number): number => Math.round(sampleAt(t, sensor));
  return [Math.max(0, index(from)), Math.min(sensor.signals.length, index(to))];
}

function meanOver(sensor: Sensor, x: Float64Array, from: number, to: number): number {
  const [a, b] = indices(sensor, from, to);
  let sum = 0;
  let n = 0;
  for (let i = a; i < b; i++) {
    if (!Number.isFinite(x[i])) continue;
    sum += x[i];
    n++;
  }
  return n > 0 ? sum / n : Number.POSITIVE_INFINITY;
}

/** Longest stretch, seconds, in which the sensor weighs less than `limit`: in the air without a leg's swing. */
function longestBelow(sensor: Sensor, from: number, to: number, limit: number): number {
  const [a, b] = indices(sensor, from, to);
  let run = 0;
  let longest = 0;
  for (let i = a; i < b; i++) {
    run = sensor.signals.acc_norm[i] < limit ? run + 1 : 0;
    longest = Math.max(longest, run);
  }
  return longest / sensor.signals.rate_hz;
}

function greatest(sensor: Sensor, from: number, to: number): number {
  const [a, b] = indices(sensor, from, to);
  let most = 0;
  for (let i = a; i < b; i++) most = Math.max(most, sensor.signals.acc_norm[i] - STANDARD_GRAVITY_MPS2);
  return most;
}
