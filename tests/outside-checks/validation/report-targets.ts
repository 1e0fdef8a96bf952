import type { CaseResult } from './judge-case.ts';
import { type Figures, pool } from './pool.ts';
import { isPlain, MOUNTINGS, onlyContacts, onPlates } from './report-sections.ts';
import { GATE_SET, GOOD_SETS } from './simulated-sets.ts';
import {
  coverageTarget,
  everyCaseTarget,
  foundTarget,
  rootMeanSquareTarget,
  spreadTarget,
  type TargetLine,
} from './targets.ts';

const FALBRIARD = 'bias < 12 +- 10, precision < 4 +- 3 Falbriard 2018, doi 10.3389/fphys.2018.00610';
const SCHMIDT = '-2.5 +- 4.8 Schmidt 2016; RMSE 8.0 Blauberger 2021';
const SINCLAIR = '5.2 bias, 11.5 absolute Sinclair 2013';
const TWO_GATES = 'RMSE 5.7 cm de Ruiter 2019, doi 10.3390/sports7090202';
const FOOT_SENSOR = '-2.5 +- 8.5 % at full effort (limits) de Ruiter 2022, doi 10.3390/s22010376';

/** Every line of the accuracy targets, for the cases that were run. */
export function reportTargets(results: CaseResult[]): TargetLine[] {
  return [
    ...MOUNTINGS.flatMap((mounting) => mountingTargets(mounting, results)),
    spreadTarget(
      'contact time, demo club, foot',
      pool(
        '',
        results.filter((r) => r.set === 'demo club, 400 Hz'),
      ),
      'contact_time',
      { bias: 4, sd: 6, unit: 'ms' },
      SCHMIDT,
    ),
    spreadTarget(
      'stride length, foot sensor alone',
      pool(
        '',
        results.filter((r) => r.mounting === 'foot' && r.set === 'steady running'),
      ),
      'stride_length',
      { bias: 2, sd: 4, unit: '%' },
      FOOT_SENSOR,
    ),
  ];
}

function mountingTargets(mounting: 'foot' | 'shank', results: CaseResult[]): TargetLine[] {
  const select = (keep: (r: CaseResult) => boolean): Figures =>
    pool(
      '',
      results.filter((r) => r.mounting === mounting && keep(r)),
    );
  // The targets are for sensors made for sprinting; narrow ranges, loose straps and losses have rows of their own.
  const good = (r: CaseResult) => GOOD_SETS.includes(r.set) && r.rate_hz >= 400;
  const sprints = select((r) => good(r) && isPlain(r));
  const sprintsAndRates = select((r) => good(r) && r.has_gyroscope && !/lost|8 g|16 g/.test(r.variant));
  const toTheLine = pool(
    '',
    onlyContacts(
      results.filter((r) => r.mounting === mounting && good(r) && isPlain(r)),
      ({ slowing }) => !slowing,
    ),
  );
  const gates = select((r) => r.set === GATE_SET && isPlain(r));
  const second = select((r) => r.set === 'second generator, sprints');
  const accelerometer = select((r) => good(r) && r.variant === 'no gyroscope');
  const plates = select((r) => onPlates(r) && isPlain(r));
  const other = select((r) => r.source === 'simulated other');
  const painted = select((r) => r.source === 'painted sprint');
  return [
    foundTarget(`contacts in sprints, ${mounting}`, sprints, 0.995),
    spreadTarget(
      `contact time, sprint, ${mounting} with gyroscope, >= 400 Hz`,
      sprintsAndRates,
      'contact_time',
      { bias: 2, sd: 4, unit: 'ms' },
      SCHMIDT,
    ),
    spreadTarget(
      `the same, start to line, as recorded, ${mounting}`,
      toTheLine,
      'contact_time',
      { bias: 2, sd: 4, unit: 'ms' },
      SCHMIDT,
    ),
    spreadTarget(
      `contact time, sprint, ${mounting}, accelerometer only, >= 400 Hz`,
      accelerometer,
      'contact_time',
      { bias: 4, sd: 6, unit: 'ms' },
      SINCLAIR,
    ),
    everyCaseTarget(
      `contact time, force plates, ${mounting}`,
      plates,
      'contact_time',
      { bias: 6, sd: 5, unit: 'ms' },
      FALBRIARD,
    ),
    foundTarget(`contacts on force plates, ${mounting}`, plates, 0.995),
    rootMeanSquareTarget(
      `step length, two gates and step times, ${mounting}`,
      sprints,
      'step_length',
      { value: 4, unit: 'cm' },
      TWO_GATES,
    ),
    rootMeanSquareTarget(
      `the same, speed 1 % off the curve, ${mounting}`,
      gates,
      'step_length',
      { value: 4, unit: 'cm' },
      TWO_GATES,
    ),
    rootMeanSquareTarget(
      `the same, second generator, ${mounting}`,
      second,
      'step_length',
      { value: 4, unit: 'cm' },
      TWO_GATES,
    ),
    coverageTarget(`stated uncertainty of contact time, sprints, ${mounting}`, sprints.quantities.contact_time),
    coverageTarget(`stated uncertainty of contact time, force plates, ${mounting}`, plates.quantities.contact_time),
    coverageTarget(`stated uncertainty of step length, off the curve, ${mounting}`, gates.quantities.step_length),
    coverageTarget(`the same, second generator, ${mounting}`, second.quantities.step_length),
    foundTarget(`contacts in painted sprints, ${mounting}`, painted, 0.995),
    foundTarget(`no contacts in standing, walking, jumping, dropped, ${mounting}`, other, 1),
  ];
}
