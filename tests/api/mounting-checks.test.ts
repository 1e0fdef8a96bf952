import { told } from '../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { joinAnalyses } from '../../api/measuring/join-analyses.ts';
import { noRunningFound } from '../../api/measuring/no-running-found.ts';
import { analyse } from '../../dsp/analyse.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import type { Mounting } from '../../shared/words.ts';
import { pairOfSensors } from '../outside-checks/validation/validation-case.ts';

const { sensors } = generateRepetition({
  seed: 61,
  repetitions: [{ distance_m: 40 }],
  sensor: { rate_hz: 400 },
  mountings: ['foot'],
  internal_rate_hz: 2000,
});
const analysed = (mounting: Mounting) =>
  analyse({
    sensors: pairOfSensors(mounting, sensors.foot),
    course: UNKNOWN_COURSE,
    conditions: UNKNOWN_CONDITIONS,
  });

describe('a recording in windows', () => {
  it('is doubted as soon as one window is, and told by the windows that can tell', () => {
    const [right, wrong] = [analysed('foot'), analysed('shank')];
    const empty = structuredClone(right);
    for (const { mounting_checks } of empty.quality) {
      for (const check of mounting_checks!) check.finding = 'cannot be told';
    }
    const segmentOf = (...windows: (typeof right)[]) => {
      const parts = windows.map((analysis, k) => ({ analysis, zero_s: 20 * k, ran: true }));
      return joinAnalyses(parts, 2).quality[0].mounting_checks!.find(({ check }) => check === 'segment')!.finding;
    };
    expect(segmentOf(empty, right)).toBe('as expected');
    expect(segmentOf(right, wrong, empty)).toBe('doubtful');
    expect(segmentOf(empty, empty)).toBe('cannot be told');
  });
});

describe('a recording without running', () => {
  it('is told to be stated wrongly where its legs swing as on the other segment', () => {
    const fault = noRunningFound(analysed('shank').quality);
    expect(fault.code).toBe('NO_RUNNING_FOUND');
    expect(told(fault).message).toMatch(/^No running was found.*left shank sensor.*worn on the foot/);
    expect(told(fault).hint).toContain("'foot'");
  });

  it('else asks for all that may be wrong', () => {
    expect(told(noRunningFound(analysed('foot').quality)).hint).toMatch(/mounting.*sampling rate/);
  });
});
