import type { FaultRoom } from '../../sentence.ts';
import type { Speech } from '../../say.ts';

/** As `MissingContacts` of the schemas, which stand above the messages. */
export type MissingPlace = { readonly after_step: number; readonly contacts: number; readonly samples_lost: boolean };

/** What is wrong with the contacts that an analysis found. */
export const contactFaults = {
  CONTACTS_MISSED: {
    message: ({ repetition, missing }: { repetition: number; missing: readonly MissingPlace[] }, say) => {
      const total = missing.reduce((sum, { contacts }) => sum + contacts, 0);
      const are = say.plural(total, { one: 'contact was run and not found', other: 'contacts were run and not found' });
      const places = say.list(missing.map((one) => place(one, say)));
      return `Repetition ${repetition}: ${total} ${are}: ${places}. What reaches over them (step, flight and stride times, step rate, lengths and speed) was left out; steps are numbered as found.`;
    },
    hint: ({ missing }: { missing: readonly MissingPlace[] }) =>
      missing.some(({ samples_lost }) => samples_lost)
        ? 'Bring in the recording from the sensor’s memory, if it has one: it has no gaps of the radio link.'
        : 'Look at the signal there: a sensor may have slipped, or a step was none of running.',
  },
  FEET_DISAGREE: {
    message: ({ repetition, apart_s, after_left_s, after_right_s, empty }: FeetDisagree, say) =>
      `Repetition ${repetition}: a step after the left foot takes ${ms(after_left_s, say)} and one after the right foot ${ms(after_right_s, say)}. Hardly anybody runs so; the clocks of the two sensors seem ${ms(apart_s, say)} apart. ${
        empty
          ? 'Step, flight and what is built on them were left out; contact and stride times of each foot stand.'
          : 'Step and flight times of left and right are to be doubted; contact and stride times of each foot stand.'
      }`,
    hint: () =>
      'Knock both sensors together once at the start, or bring in files that carry the time of day, and analyse again. If the athlete does run so, the difference is theirs.',
  },
} as const satisfies FaultRoom;

/** As the analysis measured it, s. */
export interface FeetDisagree {
  readonly repetition: number;
  readonly apart_s: number;
  readonly after_left_s: number;
  readonly after_right_s: number;
  /** Nothing is built on both feet together. */
  readonly empty: boolean;
}

function ms(time_s: number, say: Speech): string {
  return `${say.number(1000 * time_s, 0)} ms`;
}

function place({ after_step, contacts, samples_lost }: MissingPlace, say: Speech): string {
  const where =
    after_step === 0
      ? 'before the first that was found, which is the second step of the start'
      : `${say.number(contacts)} after step ${after_step}`;
  return samples_lost ? `${where} (samples were lost there)` : where;
}
