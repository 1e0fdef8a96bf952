import { because, type Reason } from '../../shared/reason.ts';
import type { MountingCheck, RepetitionResult, SensorQuality } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import type { SidedContact } from '../repetitions/contact-row.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import type { Sensor } from './alternation.ts';
import { ringingCheck, sideCheck, turningCheck } from './mounting-checks.ts';
import { outwardTurn } from './outward-turn.ts';
import { sensorQuality } from './sensor-quality.ts';

/**
 * How good the recording of each sensor is, and for what.
 * @param sensors with whether each was worn on the stated segment, and the faults of its axes (`axisFaults`)
 * @param contacts of both sensors within the repetitions, in time order
 */
export function recordingQuality(
  sensors: (Sensor & { segment: MountingCheck; axes: Fault[] })[],
  repetitions: RepetitionResult[],
  contacts: SidedContact[],
  settings: AnalysisSettings,
): SensorQuality[] {
  const judged = sensors.map(({ recording, signals, segment, axes }) => ({
    recording,
    signals,
    segment,
    own: contacts.filter((contact) => contact.side === recording.side),
    axes,
    turning: turningCheck(signals, repetitions.length > 0, settings),
  }));
  const side = sideOf(judged, settings);
  return judged.map(({ recording, signals, own, axes, segment, turning }) =>
    sensorQuality(
      recording,
      signals,
      repetitions,
      own,
      [segment, side, ringingCheck(recording, signals, repetitions, settings), turning],
      axes,
      settings,
    ),
  );
}

interface JudgedSensor extends Sensor {
  own: SidedContact[];
  axes: Fault[];
  segment: MountingCheck;
  turning: MountingCheck;
}

function sideOf(judged: JudgedSensor[], settings: AnalysisSettings): MountingCheck {
  const obstacles: [boolean, Reason][] = [
    [judged.some(({ axes }) => axes.length > 0), because('axis_reversed')],
    [judged.some(({ segment }) => segment.finding === 'doubtful'), because('mounting_doubtful')],
    [judged.some(({ turning }) => turning.finding === 'doubtful'), because('a_sensor_turned')],
  ];
  const obstacle = obstacles.find(([stands]) => stands)?.[1] ?? null;
  if (obstacle) return sideCheck([], obstacle, settings);
  const turns = judged.map(({ recording, signals, own }) => outwardTurn(recording, signals, own, settings));
  return sideCheck(turns, null, settings);
}
