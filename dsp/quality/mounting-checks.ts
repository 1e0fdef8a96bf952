import { MOUNTING_JUDGES } from './mountings.ts';
import { because, type Reason } from '../../shared/reason.ts';
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
function untold(check: MountingCheckName, unit: MountingCheck['unit'], why: Reason): MountingCheck {
  return { check, finding: 'cannot be told', value: null, value_u: null, limit: null, unit, strides: null, why };
}

const NO_GYROSCOPE = because('turning_unseen');

/**
 * Foot or shank as stated?
 * @param running whether the recording holds running for certain; without it jumps and hops would be judged
 */
export function segmentCheck(signals: SensorSignals, running: boolean, settings: AnalysisSettings): MountingCheck {
  const { shank_above, foot_below } = settings.mounting.segment;
  if (!signals.gyr_radps) return untold('segment', '1', NO_GYROSCOPE);
  if (!running) return untold('segment', '1', because('no_running'));
  const figure = wornSegment(signals, settings);
  if (!figure) return untold('segment', '1', because('few_strides'));
  const { value, value_u, strides } = figure;
  const margin = settings.mounting.surely * value_u;
  const { expected, doubtful, limit } = MOUNTING_JUDGES[signals.mounting].segment(
    (below) => value + margin < below,
    (above) => value - margin > above,
    settings.mounting.segment,
  );
  const finding: CheckFinding = doubtful ? 'doubtful' : expected ? 'as expected' : 'cannot be told';
  const why = because('segment_seen', { value, strides, foot_below, shank_above });
  return { check: 'segment', finding, value, value_u, limit, unit: '1', strides, why };
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
    return untold('ringing', 'dB', because('ringing_needs', { least_hz: least }));
  }
  const { break_hz, break_db: broken_db, frequency_hz, rise_db: risen_db, fall_db: fallen_db, duration_s } = found;
  const check = { check: 'ringing', value_u: null, unit: 'dB', strides: null } as const;
  if (broken_db > break_db) {
    const why = because('breaks_off', { break_hz, break_db: broken_db, factor: high_factor, duration_s });
    return { ...check, finding: 'doubtful', value: broken_db, limit: break_db, why };
  }
  const rings = risen_db > rise_db && fallen_db > fall_db && found.width < widest;
  const why = rings
    ? because('rings_at', { frequency_hz, rise_db: risen_db, fall_db: fallen_db, duration_s })
    : because('no_resonance', { to_hz, duration_s });
  return { ...check, finding: rings ? 'doubtful' : 'as expected', value: risen_db, limit: rise_db, why };
}

/** Did the sensor turn on the leg? @param running whether running was found: a sensor in the hand turns as it likes */
export function turningCheck(signals: SensorSignals, running: boolean, settings: AnalysisSettings): MountingCheck {
  if (!signals.gyr_radps) return untold('turning', 'deg', NO_GYROSCOPE);
  if (!running) return untold('turning', 'deg', because('no_running'));
  const course = axisCourse(signals, settings);
  if (!course) return untold('turning', 'deg', because('few_strides'));
  const { angle_deg, limit_deg, how, at_s, strides } = course;
  const turned = angle_deg > limit_deg;
  return {
    check: 'turning',
    finding: turned ? 'doubtful' : 'as expected',
    value: angle_deg,
    value_u: null,
    limit: limit_deg,
    unit: 'deg',
    strides,
    why: turned
      ? because('axis_turned', { angle_deg, limit_deg, at_s: how === 'slowly' ? null : at_s })
      : because('axis_kept', { angle_deg }),
  };
}

/**
 * Left and right as stated? One answer for both sensors.
 * @param turns of the two sensors; null where one could not be measured
 * @param obstacle what else is doubtful and takes the ground from under this check; null for nothing
 */
export function sideCheck(
  turns: (OutwardTurn | null)[],
  obstacle: Reason | null,
  settings: AnalysisSettings,
): MountingCheck {
  if (obstacle) return untold('side', '1', obstacle);
  const [one, other] = turns;
  if (turns.length !== 2) return untold('side', '1', because('needs_both_legs'));
  if (!one || !other) return untold('side', '1', because('needs_strides_of_both'));
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
    why: because('outward_turn', { value, right_above, swapped_below }),
  };
}
