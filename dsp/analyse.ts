import { commonTime, ownTime } from '../shared/sensor-clock.ts';
import type { Analysis, AnalysisInput, MountingCheck, RepetitionResult } from '../shared/analysis.ts';
import type { Fault } from '../shared/fault.ts';
import type { SensorRecording } from '../shared/sample-block.ts';
import { accelerometerContacts } from './events/accelerometer/accelerometer-contacts.ts';
import type { FootContact } from './events/foot-contact.ts';
import { gyroscopeContacts } from './events/gyroscope/gyroscope-contacts.ts';
import { type SensorSignals, sensorSignals } from './signals/sensor-signals.ts';
import type { ContactModels } from './learned/contact-model.ts';
import { LEARNED_MODELS } from './learned/learned-models.ts';
import { secondStage } from './learned/second-stage.ts';
import { legsAlternate } from './quality/alternation.ts';
import { axisFaults } from './quality/axes.ts';
import { effectiveFilters } from './quality/effective-filters.ts';
import { segmentCheck } from './quality/mounting-checks.ts';
import { wornElsewhere } from './quality/mounting-faults.ts';
import { recordingQuality } from './quality/recording-quality.ts';
import {
  contactRow,
  limitToRate,
  type SidedContact,
  withoutRoughToeOff,
  withoutToeOff,
} from './repetitions/contact-row.ts';
import {
  findRepetitions,
  isRunning,
  type RecordedSpan,
  type RepetitionContacts,
} from './repetitions/find-repetitions.ts';
import { firstMovement, motionLevel } from './repetitions/first-movement.ts';
import { otherActivity } from './repetitions/other-activity.ts';
import { topSpeed } from './repetitions/top-speed.ts';
import { feetApart, feetApartFaults } from './repetitions/feet-apart.ts';
import { contactsMissed, missingContacts, runningAfter } from './repetitions/missing-contacts.ts';
import { fillPhases } from './repetitions/phases.ts';
import { fillStepTimes } from './repetitions/step-times.ts';
import { summariseRepetition } from './repetitions/summary.ts';
import { type AnalysisSettings, DEFAULT_SETTINGS } from './settings/settings.ts';
import { fillStrides } from './strides/index.ts';
import { timedRepetition, withoutTimes } from './strides/timed-repetition.ts';

/** Names the detection method, its revision and what it has learned, in every result. */
export const METHOD = methodWith(LEARNED_MODELS);

function methodWith({ version }: ContactModels): string {
  return `contacts-2, models ${version}`;
}

/** One sensor with everything that is derived from its samples once. */
interface PreparedSensor {
  recording: SensorRecording;
  signals: SensorSignals;
  motion_level: Float64Array;
  contacts: SidedContact[];
}

/** With whether it was worn on the segment that it is said to be on, and what is wrong with its axes. */
interface JudgedSensor extends PreparedSensor {
  segment: MountingCheck;
  axes: Fault[];
}

/**
 * From one or two sensors' samples to every contact of every repetition. Pure: the same input gives the same result.
 * @param input one sensor, or two of the same mounting on opposite sides, on a common clock
 */
export function analyse(
  input: AnalysisInput,
  settings: AnalysisSettings = DEFAULT_SETTINGS,
  learned: ContactModels = LEARNED_MODELS,
): Analysis {
  const prepared = input.sensors.map((recording) => prepare(recording, settings, learned));
  const contacts = prepared.flatMap((sensor) => sensor.contacts);
  const spans = prepared.map(recordedSpan);
  const groups = findRepetitions(contacts, spans, settings);
  const running = groups.length > 0 || legsAlternate(prepared, settings);
  const sensors = prepared.map((sensor) => ({
    ...sensor,
    segment: segmentCheck(sensor.signals, running, settings),
    axes: axisFaults(sensor.recording, sensor.signals, settings),
  }));
  const timed = timedRepetition(groups);
  const untimed = { ...input, course: withoutTimes(input.course) };
  const analysed = groups.map((group, k) =>
    analyseRepetition(group, k + 1, sensors, spans, k === timed ? input : untimed, settings),
  );
  const repetitions = analysed.map(({ result }) => result);
  return {
    method: methodWith(learned),
    repetitions,
    other_activity: otherActivity(
      repetitions,
      contacts.filter((contact) => !isRunning(contact, settings)),
      sensors.map(({ recording, signals, motion_level }) => ({ recording, signals, motion_level })),
      settings,
    ),
    quality: recordingQuality(sensors, repetitions, groups.flat(), settings),
    filters: effectiveFilters(
      sensors.map(({ signals }) => signals),
      settings,
    ),
    faults: analysed.flatMap(({ faults }) => faults),
  };
}

function prepare(recording: SensorRecording, settings: AnalysisSettings, learned: ContactModels): PreparedSensor {
  const signals = sensorSignals(recording, settings);
  const found = signals.gyr_radps ? gyroscopeContacts(signals, settings) : accelerometerContacts(signals, settings);
  const { side, mounting } = recording;
  const model = learned.of(mounting, signals.gyr_radps ? 'gyroscope' : 'accelerometer');
  const contacts = found.map((each) => {
    const first = { ...each.contact, side, mounting };
    // What is no running was never learned from.
    const contact = isRunning(first, settings) ? secondStage(each, model) : first;
    return { ...onCommonClock(contact, recording), side, mounting };
  });
  return { recording, signals, motion_level: motionLevel(signals, settings), contacts };
}

function recordedSpan({ recording, signals, motion_level }: PreparedSensor): RecordedSpan {
  const end_s = signals.start_s + signals.length / signals.rate_hz;
  const index = (common_s: number): number =>
    Math.round((ownTime(common_s, recording) - signals.start_s) * signals.rate_hz);
  return {
    side: recording.side,
    from_s: commonTime(signals.start_s, recording),
    to_s: commonTime(end_s, recording),
    meanMotion: (from_s, to_s) => {
      const [a, b] = [index(from_s), index(to_s)];
      const g = signals.gyr_radps;
      let [sum, n] = [0, 0];
      for (let i = Math.max(0, a); i < Math.min(signals.length, b); i++) {
        const value = g ? Math.sqrt(g.x[i] ** 2 + g.y[i] ** 2 + g.z[i] ** 2) : motion_level[i];
        if (!Number.isFinite(value)) continue;
        sum += value;
        n++;
      }
      return n > 0 ? sum / n : 0;
    },
    lost_s: (from_s, to_s) => {
      const [a, b] = [Math.max(0, index(from_s)), Math.min(signals.length, index(to_s))];
      return signals.measured.subarray(a, b).filter((seen) => !seen).length / signals.rate_hz;
    },
  };
}

function analyseRepetition(
  group: RepetitionContacts,
  number: number,
  sensors: JudgedSensor[],
  spans: RecordedSpan[],
  { course, conditions }: AnalysisInput,
  settings: AnalysisSettings,
): { result: RepetitionResult; faults: Fault[] } {
  const rows = group.map((contact, i) => contactRow(contact, number, i + 1));
  for (const row of rows) {
    const sensor = sensors.find(({ recording }) => recording.side === row.side);
    if (!sensor) continue;
    limitToRate(row, sensor.signals.rate_hz, settings);
    withoutRoughToeOff(row, settings);
    if (sensor.segment.finding === 'doubtful') withoutToeOff(row, wornElsewhere(sensor.recording));
  }
  const between_feet_s_u = Math.hypot(...sensors.map(({ recording }) => recording.clock_offset_u_s));
  const feet = feetApart(rows, between_feet_s_u);
  const intervals = fillStepTimes(rows, between_feet_s_u, feet);
  const belt = course.belt_speed_mps !== null;
  const travel = belt ? 'treadmill' : 'unknown';
  const first_movement_s = belt ? null : earliestMovement(rows[0].touchdown_s, sensors, settings);
  const missing = missingContacts(rows, intervals, spans, first_movement_s);
  const first_movement_s_u = first_movement_s === null ? null : settings.start.first_movement_u_s;
  const strides = fillStrides(rows, {
    sensors: sensors.map((sensor) => ({ ...sensor, axes_doubtful: sensor.axes.length > 0 })),
    travel,
    first_movement_s,
    first_movement_s_u,
    runs_on_s: runningAfter(rows, spans),
    course,
    conditions,
    settings: settings.strides,
  });
  if (!belt) {
    fillPhases(
      rows,
      group.map((contact) => contact.swing_after_radps),
      settings,
    );
  }
  const noTopSpeed = topSpeed(rows).reason;
  const last = rows[rows.length - 1];
  const result: RepetitionResult = {
    repetition: number,
    travel,
    first_movement_s,
    first_movement_s_u,
    course_end_s: strides.course_end_s,
    start_s: first_movement_s ?? rows[0].touchdown_s,
    end_s: last.toe_off_s ?? last.touchdown_s,
    contacts: rows,
    speed_curve: strides.speed_curve,
    kinetics: strides.kinetics,
    summary: summariseRepetition(rows, { distance_m: course.distance_m, time_s: course.time_s, steady: belt, missing }),
    reasons: { ...strides.reasons, ...(noTopSpeed && { speed_max_mps: noTopSpeed }) },
  };
  return { result, faults: [...feetApartFaults(feet, number), ...contactsMissed(missing, number), ...strides.faults] };
}

/** First movement of either sensor before a touchdown, on the common clock; null when neither was still. */
function earliestMovement(touchdown_s: number, sensors: PreparedSensor[], settings: AnalysisSettings): number | null {
  const seen = sensors
    .map(({ recording, signals, motion_level }) => {
      const at = firstMovement(signals, motion_level, ownTime(touchdown_s, recording), settings);
      return at === null ? null : commonTime(at, recording);
    })
    .filter((at) => at !== null);
  return seen.length > 0 ? Math.min(...seen) - settings.start.feet_follow_s : null;
}

/** Moves a contact's instants from the sensor's clock to the common one. */
function onCommonClock(contact: FootContact, recording: SensorRecording): FootContact {
  const move = (own_s: number): number => commonTime(own_s, recording);
  const { toe_off_s, toe_off_raw_s } = contact;
  return {
    ...contact,
    touchdown_s: move(contact.touchdown_s),
    toe_off_s: toe_off_s === null ? null : move(toe_off_s),
    touchdown_raw_s: move(contact.touchdown_raw_s),
    toe_off_raw_s: toe_off_raw_s === null ? null : move(toe_off_raw_s),
    mid_contact_s: move(contact.mid_contact_s),
  };
}
