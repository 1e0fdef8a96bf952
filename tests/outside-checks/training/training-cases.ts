/** What the second stage learns from: everybody on force plates, and generated runs that are like real ones. */
import type { ContactModel } from '../../../dsp/learned/contact-model.ts';
import type { Mounting } from '../../../shared/words.ts';
import { forcePlateCases } from '../validation/force-plate-cases.ts';
import type { ValidationCase } from '../validation/validation-case.ts';
import { withoutGyroscope } from '../validation/variants.ts';
import { type Example, examplesOf } from './lessons.ts';

export type Channels = ContactModel['channels'];

/** Every kind of sensor that a model is for. */
export const KINDS: { mounting: Mounting; channels: Channels }[] = (['gyroscope', 'accelerometer'] as const).flatMap(
  (channels) => (['foot', 'shank'] as const).map((mounting) => ({ mounting, channels })),
);

export const kindName = ({ mounting, channels }: { mounting: Mounting; channels: Channels }): string =>
  `${mounting}-${channels}`;

/** Examples of every kind by its name. */
export type ExamplesByKind = Record<string, Example[]>;

/** Adds a case's contacts, with all its channels and with the accelerometer alone. */
export function addExamples(to: ExamplesByKind, test: ValidationCase, runner: string): void {
  const alone = {
    ...test,
    sensors: test.sensors.map((sensor, i) => ({ ...sensor, samples: withoutGyroscope(sensor.samples, i) })),
  };
  for (const channels of ['gyroscope', 'accelerometer'] as const) {
    const name = kindName({ mounting: test.mounting, channels });
    const found = examplesOf(channels === 'gyroscope' ? test : alone, runner, channels);
    to[name] = (to[name] ?? []).concat(found);
  }
}

/** Contacts of real people on force plates. */
export async function plateExamples(folders: readonly string[]): Promise<ExamplesByKind> {
  const examples: ExamplesByKind = {};
  for await (const test of forcePlateCases(folders)) addExamples(examples, test, test.runner!);
  return examples;
}
