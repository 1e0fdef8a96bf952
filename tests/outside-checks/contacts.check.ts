/**
 * Contacts against force plates that nobody here made, and against simulated sprints whose contacts are known. The whole
 * report, with variants, is `npm run validate`; this is the part that every change must pass.
 */
import { describe, expect, it } from 'vitest';
import { type ContactModels, NO_MODELS } from '../../dsp/learned/contact-model.ts';
import { recordingsFolder } from '../helpers/recordings.ts';
import { forcePlateCases } from './validation/force-plate-cases.ts';
import { type CaseResult, judgeCase } from './validation/judge-case.ts';
import { pool } from './validation/pool.ts';
import { realSensorResults } from './validation/real-sensor-checks.ts';
import { onlyContacts } from './validation/report-sections.ts';
import { otherActivityCases, sprintCases, steadyCases } from './validation/simulated-cases.ts';
import type { ValidationCase } from './validation/validation-case.ts';
import { vary } from './validation/variants.ts';

const folder = recordingsFolder();
const judge = (tests: Iterable<ValidationCase>, models?: ContactModels): CaseResult[] =>
  [...tests].map((test) => judgeCase(test, models).result);
const mountings = ['foot', 'shank'] as const;

/** Floor of a trial's contact time, ms. The aim is bias 6, SD 5 in each; `npm run validate` says where that is met. */
const LIMITS = { foot: { bias: 7, sd: 7.5 }, shank: { bias: 10, sd: 8 } };

/**
 * Trials that are known to fall short of the floor, with what they may not exceed. Slow running with the sensor on the shank
 * leaves toe-off to a slow fold of the knee; the runner over ground keeps his toes down long after the heel's fastest rise.
 */
const FALLS_SHORT: Record<string, { bias: number; sd: number }> = {
  'overground-jog-dorn, foot': { bias: 22, sd: 7.5 },
  'overground-jog-dorn, shank': { bias: 17, sd: 13.5 },
  'treadmill-run-RBDS002-T25, shank': { bias: 27, sd: 8 },
  'treadmill-run-RBDS014-T25, shank': { bias: 10, sd: 12 },
  'treadmill-run-RBDS018-T25, shank': { bias: 10, sd: 11 },
};

describe.skipIf(folder === null)('contacts on force plates', async () => {
  const cases: ValidationCase[] = [];
  if (folder !== null) for await (const test of forcePlateCases(folder)) cases.push(test);
  // What ships has learned from these runners: here the first stage stands alone. The second is judged by learned.check.ts.
  const results = judge(cases, NO_MODELS);

  it('has the 17 recordings for both mountings', () => {
    expect(results).toHaveLength(34);
  });

  for (const result of results) {
    // Fukuchi et al. 2017, doi 10.7717/peerj.3298; Davis 2022; Dorn et al. 2012, doi 10.1242/jeb.064527.
    const limit = FALLS_SHORT[`${result.name}, ${result.mounting}`] ?? LIMITS[result.mounting];
    it(`finds the contacts of ${result.name}, ${result.mounting}: bias ${limit.bias}, SD ${limit.sd} ms`, () => {
      const { contact_time } = pool('', [result]).quantities;
      expect(result.found / result.reference).toBeGreaterThanOrEqual(0.99);
      expect(result.extra / result.reference).toBeLessThanOrEqual(0.01);
      expect(Math.abs(contact_time?.bias.value ?? Number.NaN)).toBeLessThanOrEqual(limit.bias);
      expect(contact_time?.sd).toBeLessThanOrEqual(limit.sd);
    });
  }

  for (const mounting of mountings) {
    it(`states intervals that hold the plates' contact time about as often as they say, ${mounting}`, () => {
      // Aim 93 to 97 %; the plates' own 2 ms are part of the errors.
      const { contact_time } = pool(
        '',
        results.filter((r) => r.mounting === mounting),
      ).quantities;
      expect(contact_time?.coverage).toBeGreaterThanOrEqual(0.88);
      expect(contact_time?.coverage).toBeLessThanOrEqual(0.99);
    });
  }

  it('gives the same contacts however the sensor is turned', () => {
    for (const test of cases.filter((_, i) => i % 6 === 0)) {
      const [plain, turned] = [judgeCase(test).result, judgeCase(vary(test, 'turned')).result];
      expect(turned.found).toBe(plain.found);
      turned.errors.contact_time.forEach((error, i) => {
        expect(error.error).toBeCloseTo(plain.errors.contact_time[i].error, 1);
      });
    }
  });
});

describe.skipIf(folder === null)('real shoe and ankle sensors', async () => {
  const results = folder === null ? [] : await realSensorResults(folder);

  it('give the stride rate of steady stretches within 1 %', () => {
    const known = results.filter((r) => r.reference_stride_rate_hz !== null);
    expect(known.length).toBeGreaterThanOrEqual(6);
    for (const r of known) {
      expect(Math.abs((r.stride_rate_hz ?? 0) / (r.reference_stride_rate_hz ?? 1) - 1), r.name).toBeLessThanOrEqual(
        0.01,
      );
    }
  });

  it('do not count walking and standing', () => {
    for (const r of results) expect(r.contacts_elsewhere, r.name).toBe(0);
  });
});

describe('contacts of simulated running', () => {
  const kinds: [string, CaseResult[]][] = [
    ['sprints at 1000 Hz', judge(sprintCases([1, 2, 3], { rate_hz: 1000 }))],
    ['sprints at 500 Hz', judge(sprintCases([101, 102, 103], { rate_hz: 500 }))],
    ['steady running at 500 Hz', judge(steadyCases([0, 1, 2], { rate_hz: 500 }))],
  ];
  for (const [kind, results] of kinds) {
    for (const mounting of mountings) {
      it(`finds the contacts of ${kind}, ${mounting}`, () => {
        const own = results.filter((r) => r.mounting === mounting);
        const figures = pool(kind, own);
        // Slowing to a walk after the line is no sprint: found it must be, its contact time is reported by the report.
        const { contact_time } = pool(
          kind,
          onlyContacts(own, ({ slowing }) => !slowing),
        ).quantities;
        // Since the generators follow the published places of toe-off, the shank's knee fold is read 9 to 10 ms early in sprints and
        // one steady runner's landings are missed at times: what the detector reaches on them now, short of the 2 and 4 ms aimed at. In a
        // slow run the generated knee folds unlike those of the runners on plates that the second stage was taught by.
        const steady = kind.startsWith('steady');
        const limit =
          mounting === 'foot'
            ? { bias: 6, sd: 6, found: 0.99 }
            : { bias: 10, sd: steady ? 14 : 11, found: steady ? 0.85 : 0.98 };
        expect(figures.found / figures.reference).toBeGreaterThanOrEqual(limit.found);
        expect(figures.extra).toBe(0);
        expect(Math.abs(contact_time?.bias.value ?? Number.NaN)).toBeLessThanOrEqual(limit.bias);
        expect(contact_time?.sd).toBeLessThanOrEqual(limit.sd);
      });
    }
  }

  it('counts nothing while standing, walking, jumping, hopping, or when a sensor falls', () => {
    for (const result of judge(otherActivityCases([1, 2], { rate_hz: 500 }))) {
      expect(result.extra, `${result.name}, ${result.mounting}`).toBe(0);
    }
  });
});
