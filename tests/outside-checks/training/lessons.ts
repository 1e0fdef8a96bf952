/** Contacts that a second stage learns from, and is judged by: shapes as the first stage anchors them, with what is true. */
import { accelerometerContacts } from '../../../dsp/events/accelerometer/accelerometer-contacts.ts';
import type { FoundContact } from '../../../dsp/events/foot-contact.ts';
import { gyroscopeContacts } from '../../../dsp/events/gyroscope/gyroscope-contacts.ts';
import type { ContactModel } from '../../../dsp/learned/contact-model.ts';
import { landingAnchor } from '../../../dsp/learned/landing-anchor.ts';
import { strideShape } from '../../../dsp/learned/stride-shape.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import type { ValidationCase } from '../validation/validation-case.ts';

/** Whole numbers a unit of each column: rate times stride time, acceleration up and forward; along, across, length, jolt. */
export const SCALES = { gyroscope: [1000, 100, 100, 100, 100, 100, 0.5], accelerometer: [100, 100, 100, 0.5] } as const;

/** One contact that was found, with the truth. */
export interface Example {
  found: FoundContact;
  /** What the shape is read about, and the shape. */
  anchor_s: number;
  shape: Int16Array;
  touchdown_s: number;
  toe_off_s: number;
  /** Person, or generator: what is left out together. */
  runner: string;
  foot: string;
}

/** Further from its reference than this, a contact is another one. */
const SAME_CONTACT_S = 0.08;

/** @returns the contacts of one case that the first stage finds, in the order of the reference */
export function examplesOf(test: ValidationCase, runner: string, channels: ContactModel['channels']): Example[] {
  return test.sensors.flatMap((sensor) => {
    const signals = sensorSignals(sensor, DEFAULT_SETTINGS);
    const contacts = (channels === 'gyroscope' ? gyroscopeContacts : accelerometerContacts)(signals, DEFAULT_SETTINGS);
    return test.reference.flatMap((truth): Example[] => {
      if (truth.side !== sensor.side) return [];
      const away = ({ contact }: FoundContact): number => Math.abs(contact.touchdown_s - truth.touchdown_s);
      const found = contacts.reduce<FoundContact | null>((a, b) => (a && away(a) <= away(b) ? a : b), null);
      if (!found || away(found) > SAME_CONTACT_S) return [];
      const { touchdown_s, toe_off_s } = found.contact;
      const anchor_s = landingAnchor(found.shape, touchdown_s);
      const shape = strideShape(found.shape, anchor_s, toe_off_s, SCALES[channels]);
      const foot = `${test.name} ${test.variant} ${sensor.side}`;
      if (!shape) return [];
      return [{ found, anchor_s, shape, touchdown_s: truth.touchdown_s, toe_off_s: truth.toe_off_s, runner, foot }];
    });
  });
}
