import { MOUNTING_JUDGES } from './mountings.ts';
import type { MountingCheck, RepetitionResult } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import type { CheckFinding, MountingCheckName } from '../../shared/words.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import { axisCourse } from './axis-course.ts';
import type { OutwardTurn } from './outward-turn.ts';
import { resonance } from './resonance.ts';
import { wornSegment } from './worn-segment.ts';

/** Why a check says nothing. */
function untold(check: MountingCheckName, unit: MountingCheck['unit'], why: string): MountingCheck {
  return { check, finding: 'cannot be told', value: null, value_u: null, limit: null, unit, strides: null, why };
}

const NO_GYROSCOPE = 'without a gyroscope the turning of the leg is not seen';

/**
 * Foot or shank as stated?
 * @param running whether the recording holds running for certain; without it jumps and hops would be judged
 */
export function segmentCheck(signals: SensorSignals, running: boolean, settings: AnalysisSettings): MountingCheck {
  const { shank_above, foot_below } = settings.mounting.segment;
  if (!signals.gyr_radps) return untold('segment', '1', NO_GYROSCOPE);
  if (!running) return untold('segment', '1', 'no running was found');
  const figure = wornSegment(signals, settings);
  if (!figure) return untold('segment', '1', 'too few strides of running');
  const { value, value_u, strides } = figure;
  const margin = settings.mounting.surely * value_u;
  const { expected, doubtful, limit } = MOUNTING_JUDGES[signals.mounting].segment(
    (below) => value + margin < below,
    (above) => value - margin > above,
    settings.mounting.segment,
  );
  const finding: CheckFinding = doubtful ? 'doubtful' : expected ? 'as expected' : 'cannot be told';
  const seen = `while a foot lies flat it turns at ${value.toFixed(2)} of its mean backward rate (${strides} strides)`;
  const norms = `below ${foot_below} it is a foot, above ${shank_above} a shank`;
  return { check: 'segment', finding, value, value_u, limit, unit: '1', strides, why: `${seen}; ${norms}` };
}

/** Does the sensor ring on its strap? */
export function ringingCheck(
  recording: SensorRecording,
  signals: SensorSignals,
  repetitions: RepetitionResult[],
  settings: AnalysisSettings,
): MountingCheck {
  const { rise_db, fall_db, widest, to_hz, high_factor, break_db } = settings.mounting.ringing;
  const found = resonance(recording, signals, repetitions, settings);
  if (!found) {
    const least = Math.ceil((to_hz * high_factor) / 0.45);
    return untold('ringing', 'dB', `it takes some seconds of running at ${least} samples a second or more`);
  }
  const over = `(${found.duration_s.toFixed(1)} s of running)`;
  const check = { check: 'ringing', value_u: null, unit: 'dB', strides: null } as const;
  if (found.break_db > break_db) {
    const why =
      `above ${found.break_hz.toFixed(0)} Hz the acceleration breaks off, ${found.break_db.toFixed(1)} dB within a factor of ` +
      `${high_factor}, as on a soft strap ${over}`;
    return { ...check, finding: 'doubtful', value: found.break_db, limit: break_db, why };
  }
  const rings = found.rise_db > rise_db && found.fall_db > fall_db && found.width < widest;
  const why = rings
    ? `the acceleration rings at ${found.frequency_hz.toFixed(0)} Hz, ${found.rise_db.toFixed(1)} dB out of what lies below and ` +
      `${found.fall_db.toFixed(1)} dB out of what lies above ${over}`
    : `no narrow resonance below ${to_hz} Hz ${over}`;
  return { ...check, finding: rings ? 'doubtful' : 'as expected', value: found.rise_db, limit: rise_db, why };
}

/** Did the sensor turn on the leg? @param running whether running was found: a sensor in the hand turns as it likes */
export function turningCheck(signals: SensorSignals, running: boolean, settings: AnalysisSettings): MountingCheck {
  if (!signals.gyr_radps) return untold('turning', 'deg', NO_GYROSCOPE);
  if (!running) return untold('turning', 'deg', 'no running was found');
  const course = axisCourse(signals, settings);
  if (!course) return untold('turning', 'deg', 'too few strides of running');
  const { angle_deg, limit_deg, how, at_s, strides } = course;
  const turned = angle_deg > limit_deg;
  const when = how === 'slowly' ? 'little by little over the recording' : `at ${at_s.toFixed(1)} s`;
  return {
    check: 'turning',
    finding: turned ? 'doubtful' : 'as expected',
    value: angle_deg,
    value_u: null,
    limit: limit_deg,
    unit: 'deg',
    strides,
    why: turned
      ? `the axis of the swing turned by ${angle_deg.toFixed(0)} degrees in the sensor's own axes, ${when}; ` +
        `up to ${limit_deg.toFixed(0)} degrees are the scatter of these strides`
      : `the axis of the swing kept its place to ${angle_deg.toFixed(0)} degrees`,
  };
}

/**
 * Left and right as stated? One answer for both sensors.
 * @param turns of the two sensors; null where one could not be measured
 * @param obstacle what else is doubtful and takes the ground from under this check; null for nothing
 */
export function sideCheck(
  turns: (OutwardTurn | null)[],
  obstacle: string | null,
  settings: AnalysisSettings,
): MountingCheck {
  if (obstacle) return untold('side', '1', obstacle);
  const [one, other] = turns;
  if (turns.length !== 2)
    return untold('side', '1', 'it takes both legs: on a bend one leg alone leans like the other');
  if (!one || !other) return untold('side', '1', 'it takes some whole strides of both legs, with gyroscopes');
  const { swapped_below, right_above } = settings.mounting.side;
  const value = (one.push.value + other.push.value) / 2;
  const value_u = Math.hypot(one.push.value_u, other.push.value_u) / 2;
  const margin = settings.mounting.surely * value_u;
  const second = (one.second + other.second) / 2;
  const swapped = value + margin < swapped_below && Math.max(one.push.value, other.push.value) < 0 && second < 0;
  const right = value - margin > right_above && Math.min(one.push.value, other.push.value) > 0;
  return {
    check: 'side',
    finding: swapped ? 'doubtful' : right ? 'as expected' : 'cannot be told',
    value,
    value_u,
    limit: swapped_below,
    unit: '1',
    strides: one.push.strides + other.push.strides,
    why:
      `outward turn before toe-off ${value.toFixed(2)} of what is usual for the stated sides; ` +
      `above ${right_above} they are as stated, below ${swapped_below} swapped`,
  };
}
