import { forcePlateCases } from './force-plate-cases.ts';
import { ANGLES, type CaseResult, judgeCase, type Quantity } from './judge-case.ts';
import { type Figures, pool } from './pool.ts';
import { realSensorFigures } from './real-sensor-checks.ts';
import { repetitionFigures, repetitionTargets } from './repetition-checks.ts';
import { otherActivityCases, paintedCases, sprintCases, steadyCases } from './simulated-cases.ts';
import {
  coverageTarget,
  everyCaseTarget,
  foundTarget,
  rootMeanSquareTarget,
  spreadTarget,
  type TargetLine,
} from './targets.ts';
import { timeScaled } from './time-scaled.ts';
import type { ValidationCase } from './validation-case.ts';
import { VARIANTS, vary } from './variants.ts';

export interface Report {
  cases: Figures[];
  /** Quantities other than those of contacts are named. */
  sections: { title: string; rows: Figures[]; quantities?: readonly Quantity[] }[];
  notes: string[];
  targets: TargetLine[];
  analysis_ms: number;
}

export interface ValidateOptions {
  /** Folder of the real recordings; null leaves them out. */
  folder: string | null;
  /** Only what a test can afford: no variants but turning, few simulated runs. */
  quick: boolean;
  /** Part of the names to run. */
  only: string;
}

const FALBRIARD = 'bias < 12 +- 10, precision < 4 +- 3 Falbriard 2018, doi 10.3389/fphys.2018.00610';
const SCHMIDT = '-2.5 +- 4.8 Schmidt 2016; RMSE 8.0 Blauberger 2021';
const SINCLAIR = '5.2 bias, 11.5 absolute Sinclair 2013';
const TWO_GATES = 'RMSE 5.7 cm de Ruiter 2019, doi 10.3390/sports7090202';
const FOOT_SENSOR = '-2.5 +- 8.5 % at full effort (limits) de Ruiter 2022, doi 10.3390/s22010376';

export const range = (from: number, count: number) => Array.from({ length: count }, (_, i) => from + i);

export async function validate(options: ValidateOptions): Promise<Report> {
  const results: CaseResult[] = [];
  const turning: number[] = [];
  const run = (test: ValidationCase): CaseResult => {
    const { result } = judgeCase(test);
    results.push(result);
    return result;
  };
  const wanted = (test: ValidationCase) => test.name.includes(options.only);
  const variants = options.quick ? ['turned', 'no gyroscope'] : Object.keys(VARIANTS);

  if (options.folder) {
    for await (const test of forcePlateCases(options.folder, options.only)) {
      const base = run(test);
      for (const variant of variants) {
        if (variant.endsWith(' Hz') && Number.parseInt(variant, 10) >= test.rate_hz) continue;
        const varied = run(vary(test, variant));
        if (variant === 'turned') turning.push(largestChange(base, varied));
      }
      for (const scale of options.quick ? [2] : [1.5, 2]) run(timeScaled(test, scale));
    }
  }
  const good = { acc_range_g: 200, gyr_range_dps: 4000 };
  for (const test of sprintCases(range(1, options.quick ? 4 : 12), { rate_hz: 1000, ...good })) {
    if (!wanted(test)) continue;
    const base = run(test);
    for (const variant of variants) {
      const varied = run(vary(test, variant));
      if (variant === 'turned') turning.push(largestChange(base, varied));
    }
  }
  const others: [string, Iterable<ValidationCase>][] = [
    ['sprint', sprintCases(range(101, options.quick ? 2 : 12), { rate_hz: 500, ...good })],
    ['sprint', sprintCases(range(201, options.quick ? 0 : 6), { rate_hz: 400, ...good })],
    ['sprint', sprintCases(range(301, options.quick ? 0 : 6), { rate_hz: 1000, acc_range_g: 16, gyr_range_dps: 2000 })],
    ['loose', sprintCases(range(601, options.quick ? 0 : 6), { rate_hz: 500, strap_hz: 28, strap_damping: 0.15 })],
    ['clipped', sprintCases(range(701, options.quick ? 0 : 6), { rate_hz: 500, gyr_range_dps: 1000 })],
    [
      'jitter',
      sprintCases(range(801, options.quick ? 0 : 6), { rate_hz: 500, stamp_jitter_s: 0.0008, lost_share: 0.02 }),
    ],
    ['part speed', partSpeedCases(options.quick ? 2 : 6)],
    ['steady', steadyCases(range(0, options.quick ? 3 : 12), { rate_hz: 500, ...good })],
    ['painted', paintedCases(range(1, options.quick ? 3 : 12), { rate_hz: 1000, ...good })],
    ['other', otherActivityCases(range(1, options.quick ? 1 : 4), { rate_hz: 500, ...good })],
  ];
  for (const [, tests] of others) for (const test of tests) if (wanted(test)) run(test);

  const { lines, targets: sensorTargets } = options.folder
    ? await realSensorFigures(options.folder)
    : { lines: ['Real recordings are not here.'], targets: [] };
  const summary = summarise(results);
  return {
    cases: results.map((r) => pool(`${r.name} ${r.mounting} ${r.rate_hz} Hz ${r.variant}`, [r])),
    sections: summary.sections,
    targets: [
      ...summary.targets,
      ...repetitionTargets(repetitionFigures(range(501, options.quick ? 2 : 8))),
      ...sensorTargets,
    ],
    notes: [
      `Turning the sensor moved touchdown or toe-off by at most ${Math.max(0, ...turning).toFixed(2)} ms.`,
      ...lines,
    ],
    analysis_ms: results.reduce((sum, r) => sum + r.analysis_ms, 0) / results.length,
  };
}

function* partSpeedCases(count: number): Generator<ValidationCase> {
  for (const [i, effort] of range(0, count).map((k) => [k, [0.5, 0.75, 0.6][k % 3]] as const)) {
    yield* sprintCases([401 + i], { rate_hz: 500 }, { repetitions: [{ effort, distance_m: 50 }] });
  }
}

/** Largest difference of one instant between two runs over the same contacts, ms. */
function largestChange(a: CaseResult, b: CaseResult): number {
  if (a.found !== b.found) return Number.POSITIVE_INFINITY;
  const errors = (r: CaseResult) => [...r.errors.touchdown, ...r.errors.toe_off].map((e) => e.error);
  const other = errors(b);
  return Math.max(0, ...errors(a).map((e, i) => Math.abs(e - other[i])));
}

function summarise(results: CaseResult[]): Pick<Report, 'sections' | 'targets'> {
  const select = (label: string, keep: (r: CaseResult) => boolean) => pool(label, results.filter(keep));
  const plain = (r: CaseResult) => r.variant === 'as recorded';
  const plates = (r: CaseResult) => r.source === 'treadmill' || r.source === 'overground';
  const sprint = (r: CaseResult) => r.source === 'simulated sprint';
  const rows: Report['sections'] = [];
  const mountings = ['foot', 'shank'] as const;
  const add = (title: string, entries: Figures[]) => {
    const filled = entries.filter((row) => row.cases > 0);
    if (filled.length > 0) rows.push({ title, rows: filled });
  };
  for (const mounting of mountings) {
    add(
      `Force plates, ${mounting}, as recorded`,
      results.filter((r) => plates(r) && plain(r) && r.mounting === mounting).map((r) => pool(r.name, [r])),
    );
  }
  const variantsOf = (source: (r: CaseResult) => boolean) =>
    mountings.flatMap((mounting) =>
      [...new Set(results.filter(source).map((r) => r.variant))].map((variant) =>
        select(`${mounting}, ${variant}`, (r) => source(r) && r.mounting === mounting && r.variant === variant),
      ),
    );
  add('Force plates, pooled by mounting and what was done to the recording', variantsOf(plates));
  const inVariants = (r: CaseResult) => sprint(r) && Number(r.name.split(/[ :]/)[1]) <= 100;
  add('Simulated sprints at 1000 Hz, by mounting and what was done', variantsOf(inVariants));
  add(
    'Simulated sprints and part speed, by mounting and sensor',
    mountings.flatMap((mounting) =>
      [
        ['500 Hz', 101, 199],
        ['400 Hz', 201, 299],
        ['1000 Hz, 16 g, 2000 deg/s', 301, 399],
        ['500 Hz, loose strap (28 Hz)', 601, 699],
        ['500 Hz, gyroscope to 1000 deg/s', 701, 799],
        ['500 Hz, jitter 0.8 ms, 2 % lost', 801, 899],
        ['50 to 75 % speed, 500 Hz', 401, 499],
      ].map(([label, from, to]) =>
        select(`${mounting}, ${label}`, (r) => {
          const seed = Number(r.name.split(/[ :]/)[1]);
          return sprint(r) && plain(r) && r.mounting === mounting && seed >= Number(from) && seed <= Number(to);
        }),
      ),
    ),
  );
  add(
    'Simulated steady running, 500 Hz',
    mountings.map((m) => select(m, (r) => r.source === 'simulated steady' && r.mounting === m)),
  );
  add(
    'Sprints of another maker, events painted onto curves (its bias means nothing)',
    mountings.map((m) => select(m, (r) => r.source === 'painted sprint' && r.mounting === m)),
  );
  add(
    'Standing, walking, jumping, hopping, dropped: nothing may be found',
    mountings.map((m) => select(m, (r) => r.source === 'simulated other' && r.mounting === m)),
  );

  rows.push({
    title: 'Angles: markers on treadmill and ground, simulated sprints and steady running',
    quantities: ANGLES,
    rows: mountings.flatMap((m) => [
      select(`${m}, markers`, (r) => plates(r) && plain(r) && r.mounting === m),
      select(`${m}, simulated`, (r) => !plates(r) && plain(r) && r.mounting === m),
    ]),
  });

  const targets: TargetLine[] = [];
  // The targets are for sensors made for sprinting; narrow ranges, loose straps and losses have rows of their own.
  const fast = (r: CaseResult) =>
    sprint(r) &&
    Number(r.name.split(/[ :]/)[1]) < 300 &&
    r.rate_hz >= 400 &&
    r.has_gyroscope &&
    !/lost|8 g|16 g/.test(r.variant);
  for (const m of mountings) {
    const here = (keep: (r: CaseResult) => boolean) => (r: CaseResult) => keep(r) && r.mounting === m;
    targets.push(
      foundTarget(
        `contacts in sprints, ${m}`,
        select(
          '',
          here((r) => fast(r) && plain(r)),
        ),
        0.995,
      ),
      spreadTarget(
        `contact time, sprint, ${m} with gyroscope, >= 400 Hz`,
        select('', here(fast)),
        'contact_time',
        { bias: 2, sd: 4, unit: 'ms' },
        SCHMIDT,
      ),
      spreadTarget(
        `contact time, sprint, ${m}, accelerometer only, >= 400 Hz`,
        select(
          '',
          here((r) => sprint(r) && r.variant === 'no gyroscope' && r.rate_hz >= 400),
        ),
        'contact_time',
        { bias: 4, sd: 6, unit: 'ms' },
        SINCLAIR,
      ),
      everyCaseTarget(
        `contact time, force plates, ${m}`,
        select(
          '',
          here((r) => plates(r) && plain(r)),
        ),
        'contact_time',
        { bias: 6, sd: 5, unit: 'ms' },
        FALBRIARD,
      ),
      foundTarget(
        `contacts on force plates, ${m}`,
        select(
          '',
          here((r) => plates(r) && plain(r)),
        ),
        0.995,
      ),
      rootMeanSquareTarget(
        `step length, two gates and step times, ${m}`,
        select(
          '',
          here((r) => fast(r) && plain(r)),
        ),
        'step_length',
        { value: 4, unit: 'cm' },
        TWO_GATES,
      ),
      coverageTarget(
        `stated uncertainty of contact time, sprints, ${m}`,
        select(
          '',
          here((r) => fast(r) && plain(r)),
        ).quantities.contact_time,
      ),
      coverageTarget(
        `stated uncertainty of contact time, force plates, ${m}`,
        select(
          '',
          here((r) => plates(r) && plain(r)),
        ).quantities.contact_time,
      ),
      coverageTarget(
        `stated uncertainty of step length, sprints, ${m}`,
        select(
          '',
          here((r) => fast(r) && plain(r)),
        ).quantities.step_length,
      ),
      foundTarget(
        `no contacts in standing, walking, jumping, dropped, ${m}`,
        select(
          '',
          here((r) => r.source === 'simulated other'),
        ),
        1,
      ),
    );
  }
  targets.push(
    spreadTarget(
      'stride length, foot sensor alone',
      pool(
        '',
        results.filter((r) => r.mounting === 'foot' && plain(r) && r.source === 'simulated steady'),
      ),
      'stride_length',
      { bias: 2, sd: 4, unit: '%' },
      FOOT_SENSOR,
    ),
  );
  return { sections: rows, targets };
}
