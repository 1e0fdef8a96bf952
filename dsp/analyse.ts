import type { Analysis, AnalysisInput, RepetitionResult } from '../shared/analysis.ts';
import type { SensorRecording } from '../shared/sample-block.ts';
import { accelerometerContacts } from './events/accelerometer-contacts.ts';
import type { FootContact } from './events/foot-contact.ts';
import { gyroscopeContacts } from './events/gyroscope-contacts.ts';
import { type SensorSignals, sensorSignals } from './events/sensor-signals.ts';
import { sensorQuality } from './quality/sensor-quality.ts';
import { contactRow, type SidedContact } from './repetitions/contact-row.ts';
import { findRepetitions } from './repetitions/find-repetitions.ts';
import { fillStepTimes } from './repetitions/step-times.ts';
import { summariseRepetition } from './repetitions/summary.ts';
import { type AnalysisSettings, DEFAULT_SETTINGS } from './settings.ts';
import { fillStrides } from './strides/index.ts';

/** Names the detection method and its revision in every result. */
export const METHOD = 'contacts-1';

/**
 * From one or two sensors' samples to every contact of every repetition. Pure: the same input gives the same result.
 * @param input one sensor, or two of the same mounting on opposite sides, on a common clock
 */
export function analyse(input: AnalysisInput, settings: AnalysisSettings = DEFAULT_SETTINGS): Analysis {
  const signals = input.sensors.map((sensor) => sensorSignals(sensor, settings));
  const contacts = input.sensors.flatMap((sensor, k) => sidedContacts(sensor, signals[k], settings));
  const repetitions = findRepetitions(contacts, settings).map((group, k): RepetitionResult => {
    const rows = group.map((contact, i) => contactRow(contact, k + 1, i + 1));
    fillStepTimes(rows, settings.running.max_contact_gap_s);
    const belt = input.course.belt_speed_mps !== null;
    const strides = fillStrides(rows, {
      sensors: input.sensors.map((recording, s) => ({ recording, signals: signals[s] })),
      travel: belt ? 'treadmill' : 'unknown',
      first_movement_s: null,
      first_movement_s_u: null,
      course: input.course,
      conditions: input.conditions,
    });
    return {
      repetition: k + 1,
      travel: belt ? 'treadmill' : 'unknown',
      first_movement_s: null,
      first_movement_s_u: null,
      course_end_s: strides.course_end_s,
      start_s: rows[0].touchdown_s,
      end_s: rows[rows.length - 1].toe_off_s ?? rows[rows.length - 1].touchdown_s,
      contacts: rows,
      speed_curve: strides.speed_curve,
      kinetics: strides.kinetics,
      summary: summariseRepetition(rows, {
        distance_m: input.course.distance_m,
        time_s: input.course.time_s,
        steady: belt,
      }),
      reasons: strides.reasons,
    };
  });
  return {
    method: METHOD,
    repetitions,
    other_activity: [],
    quality: input.sensors.map((sensor, k) => sensorQuality(sensor, signals[k])),
    filters: [],
    faults: [],
  };
}

function sidedContacts(sensor: SensorRecording, signals: SensorSignals, settings: AnalysisSettings): SidedContact[] {
  const found = signals.sagittal_rate ? gyroscopeContacts(signals, settings) : accelerometerContacts(signals, settings);
  return found.map((contact) => ({ ...onCommonClock(contact, sensor), side: sensor.side, mounting: sensor.mounting }));
}

/** Moves a contact's instants from the sensor's clock to the common one. */
function onCommonClock(contact: FootContact, sensor: SensorRecording): FootContact {
  const move = (t: number): number => sensor.clock_offset_s + t * (1 + sensor.clock_drift);
  return {
    ...contact,
    touchdown_s: move(contact.touchdown_s),
    toe_off_s: contact.toe_off_s === null ? null : move(contact.toe_off_s),
    touchdown_raw_s: move(contact.touchdown_raw_s),
    toe_off_raw_s: contact.toe_off_raw_s === null ? null : move(contact.toe_off_raw_s),
    mid_contact_s: move(contact.mid_contact_s),
  };
}
