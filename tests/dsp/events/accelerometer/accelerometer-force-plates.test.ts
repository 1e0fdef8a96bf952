/**
 * Contacts without a gyroscope against force plates: Fukuchi et al. 2017, doi 10.7717/peerj.3298; Davis 2022; Dorn et al.
 * 2012, doi 10.1242/jeb.064527. Published for an accelerometer on the shank: 5.2 ms bias, 11.5 ms absolute (Sinclair et al.
 * 2013, J Appl Biomech 29:118).
 */
import { describe, expect, it } from 'vitest';
import { NO_MODELS } from '../../../../dsp/learned/contact-model.ts';
import { recordingsFolder } from '../../../helpers/recordings.ts';
import { forcePlateCases } from '../../../outside-checks/validation/force-plate-cases.ts';
import { judgeCase } from '../../../outside-checks/validation/judge-case.ts';
import { pool } from '../../../outside-checks/validation/pool.ts';
import { timeScaled } from '../../../outside-checks/validation/time-scaled.ts';
import type { ValidationCase } from '../../../outside-checks/validation/validation-case.ts';
import { vary } from '../../../outside-checks/validation/variants.ts';

const folder = recordingsFolder();

/** Floors; the aim at 400 Hz and more is bias 4, SD 6 ms. */
const LIMITS = { foot: { bias: 3, sd: 7 }, shank: { bias: 4, sd: 10.5 } };

describe.skipIf(folder === null)('contacts without a gyroscope on force plates', async () => {
  const cases: ValidationCase[] = [];
  if (folder !== null) for await (const test of forcePlateCases(folder)) cases.push(test);

  for (const mounting of ['foot', 'shank'] as const) {
    for (const scale of [1, 1.5]) {
      it(`are found and timed, ${mounting}, played ${scale} times as fast`, () => {
        const own = cases.filter((test) => test.mounting === mounting);
        const results = own.map(
          // What ships has learned from these runners: the first stage stands alone.
          (test) => judgeCase(vary(scale === 1 ? test : timeScaled(test, scale), 'no gyroscope'), NO_MODELS).result,
        );
        const { found, reference, extra, quantities } = pool(mounting, results);
        const { contact_time } = quantities;
        const limit = LIMITS[mounting];
        expect(found / reference).toBeGreaterThanOrEqual(0.995);
        expect(extra).toBe(0);
        expect(contact_time?.n).toBeGreaterThanOrEqual(0.9 * reference);
        expect(Math.abs(contact_time?.bias.value ?? Number.NaN)).toBeLessThanOrEqual(limit.bias);
        expect(contact_time?.sd).toBeLessThanOrEqual(limit.sd);
        expect(contact_time?.coverage).toBeGreaterThanOrEqual(0.92);
      });
    }
  }
});
