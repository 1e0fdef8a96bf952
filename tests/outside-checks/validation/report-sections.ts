import { ANGLES, type CaseResult, type Quantity, type StatedError } from './judge-case.ts';
import { type Figures, pool } from './pool.ts';
import { GOOD_SETS, SPRINTS } from './simulated-sets.ts';

export interface Section {
  title: string;
  rows: Figures[];
  /** Quantities other than those of contacts are named. */
  quantities?: readonly Quantity[];
}

export const MOUNTINGS = ['foot', 'shank'] as const;

export const isPlain = (r: CaseResult): boolean => r.variant === 'as recorded';
const isSimulatedRun = (r: CaseResult): boolean =>
  GOOD_SETS.includes(r.set) || r.set === 'steady running' || r.set.startsWith('50 to 75');
export const onPlates = (r: CaseResult): boolean => r.source === 'treadmill' || r.source === 'overground';

const SPEED_BANDS: [number, number][] = [
  [0, 3],
  [3, 4],
  [4, 5],
  [5, 7],
  [7, 9],
  [9, 13],
];

/** The same results with only some of the contacts; what was missed has no speed and is left out. */
export function onlyContacts(results: CaseResult[], keep: (error: StatedError) => boolean): CaseResult[] {
  return results
    .map((r) => {
      const errors = Object.fromEntries(
        Object.entries(r.errors).map(([quantity, list]) => [quantity, list.filter(keep)]),
      ) as CaseResult['errors'];
      const found = errors.touchdown.length;
      return { ...r, errors, reference: found, found, missed: 0, extra: 0 };
    })
    .filter((r) => r.found > 0);
}

/** A row for each mounting and each band of speed, over contacts of what was left as recorded. */
function bySpeed(results: CaseResult[], kind: (r: CaseResult) => boolean, label: string): Figures[] {
  return MOUNTINGS.flatMap((mounting) =>
    SPEED_BANDS.map(([from, to]) =>
      pool(
        `${mounting}, ${label}, ${from} to ${to} m/s`,
        onlyContacts(
          results.filter((r) => kind(r) && isPlain(r) && r.mounting === mounting),
          ({ speed_mps }) => speed_mps !== null && speed_mps >= from && speed_mps < to,
        ),
      ),
    ),
  );
}

/** The tables of the report, each row a pool of cases. */
export function reportSections(results: CaseResult[]): Section[] {
  const select = (label: string, keep: (r: CaseResult) => boolean) => pool(label, results.filter(keep));
  const namesOf = (key: 'variant' | 'set', keep: (r: CaseResult) => boolean) => [
    ...new Set(results.filter(keep).map((r) => r[key])),
  ];
  /** A row for each mounting and each variant (or set) that occurs. */
  const rowsBy = (key: 'variant' | 'set', keep: (r: CaseResult) => boolean) =>
    MOUNTINGS.flatMap((mounting) =>
      namesOf(key, keep).map((name) =>
        select(`${mounting}, ${name}`, (r) => keep(r) && r.mounting === mounting && r[key] === name),
      ),
    );
  const sections: Section[] = [
    ...MOUNTINGS.map((mounting) => ({
      title: `Force plates, ${mounting}, as recorded`,
      rows: results.filter((r) => onPlates(r) && isPlain(r) && r.mounting === mounting).map((r) => pool(r.name, [r])),
    })),
    {
      title: 'Force plates, pooled by mounting and what was done to the recording',
      rows: rowsBy('variant', onPlates),
    },
    {
      title: 'Simulated sprints at 1000 Hz, by mounting and what was done',
      rows: rowsBy('variant', (r) => r.set === SPRINTS),
    },
    {
      title: 'Simulated sprints and part speed, by mounting and sensor',
      rows: rowsBy('set', (r) => r.source === 'simulated sprint' && isPlain(r)),
    },
    {
      title: 'By the speed of each contact: force plates, then simulated sprints, part speed and steady running',
      rows: [...bySpeed(results, onPlates, 'plates'), ...bySpeed(results, isSimulatedRun, 'simulated')],
    },
    { title: 'Simulated steady running, 500 Hz', rows: rowsBy('set', (r) => r.source === 'simulated steady') },
    {
      title: 'Sprints of another maker, events painted onto curves (its bias means nothing)',
      rows: rowsBy('set', (r) => r.source === 'painted sprint'),
    },
    {
      title: 'A second generator, made without knowing the first or the detector (generated data, not outside truth)',
      rows: [
        ...rowsBy('set', (r) => r.source === 'second generator'),
        ...bySpeed(
          results,
          (r) => r.source === 'second generator' && !r.set.endsWith('markers'),
          'second generator, sensors only',
        ),
      ],
    },
    {
      title: 'Standing, walking, jumping, hopping, dropped: nothing may be found',
      rows: rowsBy('set', (r) => r.source === 'simulated other'),
    },
    {
      title: 'Angles against markers, by recording (bias +- SD, share within the stated 95 % interval)',
      quantities: ANGLES,
      rows: MOUNTINGS.flatMap((m) =>
        results
          .filter((r) => onPlates(r) && isPlain(r) && r.mounting === m)
          .map((r) => pool(`${m}, ${r.name}`, [r]))
          .concat(select(`${m}, all of these`, (r) => onPlates(r) && isPlain(r) && r.mounting === m)),
      ),
    },
    {
      title: 'Angles in simulated sprints, part speed and steady running, by the speed of each contact',
      quantities: ANGLES,
      rows: bySpeed(results, isSimulatedRun, 'simulated'),
    },
  ];
  return sections
    .map((section) => ({ ...section, rows: section.rows.filter((row) => row.cases > 0) }))
    .filter((section) => section.rows.length > 0);
}
