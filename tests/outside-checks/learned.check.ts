/**
 * The second stage on runners it has never seen: learned here and now from twelve runners at one speed, judged on the three that were
 * left out. The full account, every runner left out at every speed, is `npm run validate`.
 * Truth: Fukuchi RK, Fukuchi CA, Duarte M (2017) PeerJ 5:e3298, doi 10.7717/peerj.3298.
 */
import { describe, expect, it } from 'vitest';
import type { ContactModels } from '../../dsp/learned/contact-model.ts';
import { NO_MODELS } from '../../dsp/learned/contact-model.ts';
import { mean, standardDeviation } from '../../dsp/numeric/statistics.ts';
import { recordingsFolders } from '../helpers/recordings.ts';
import { fitModel, leaveOneOut, thinned, withIntervals } from './training/fit-model.ts';
import { addExamples, type ExamplesByKind } from './training/training-cases.ts';
import { forcePlateCases } from './validation/force-plate-cases.ts';
import { judgeCase } from './validation/judge-case.ts';
import type { ValidationCase } from './validation/validation-case.ts';

const folders = recordingsFolders();
/** One with two humps of the foot's rate about toe-off, one whose landings come in two blows, one without either. */
const LEFT_OUT = ['RBDS011', 'RBDS012', 'RBDS018'];

describe.skipIf(folders === null || folders.length < 2)('the second stage on runners it has never seen', async () => {
  const judged: ValidationCase[] = [];
  const examples: ExamplesByKind = {};
  if (folders !== null) {
    for await (const test of forcePlateCases(folders, 'T35')) {
      if (test.mounting !== 'foot') continue;
      if (LEFT_OUT.includes(test.runner!)) judged.push(test);
      else addExamples(examples, test, test.runner!);
    }
  }
  const own = thinned(examples['foot-gyroscope'] ?? []);
  const models: ContactModels = {
    version: 'learned from twelve runners',
    of: (mounting, channels) => (mounting === 'foot' && channels === 'gyroscope' ? model : null),
  };
  const model =
    own.length > 0
      ? withIntervals(fitModel(own, 'foot', 'gyroscope'), leaveOneOut(own, [], 'foot', 'gyroscope'))
      : null;
  const errors = (set: ContactModels, quantity: 'touchdown' | 'toe_off') =>
    judged.flatMap((test) => judgeCase(test, set).result.errors[quantity]);

  it('has three runners to judge by', () => {
    expect(judged).toHaveLength(3);
  });

  it('dates toe-off at least half as far off again as the physical features alone', () => {
    const of = (set: ContactModels) => errors(set, 'toe_off').map((e) => e.error);
    const rms = (values: number[]) => Math.hypot(mean(values), standardDeviation(values));
    expect(rms(of(models))).toBeLessThan(0.5 * rms(of(NO_MODELS)));
    expect(standardDeviation(of(models))).toBeLessThanOrEqual(7);
  });

  it('states intervals that hold the plates’ instants of most contacts', () => {
    for (const quantity of ['touchdown', 'toe_off'] as const) {
      const all = errors(models, quantity);
      const held = all.filter((e) => Math.abs(e.error) <= 1.96 * e.stated_u!).length / all.length;
      expect(held, quantity).toBeGreaterThanOrEqual(0.8);
    }
  });
});
