import { ANGLES, type CaseResult, type Quantity } from './judge-case.ts';
import { type Figures, pool } from './pool.ts';
import { SPRINTS } from './simulated-sets.ts';

export interface Section {
  title: string;
  rows: Figures[];
  /** Quantities other than those of contacts are named. */
  quantities?: readonly Quantity[];
}

export const MOUNTINGS = ['foot', 'shank'] as const;

export const isPlain = (r: CaseResult): boolean => r.variant === 'as recorded';
export const onPlates = (r: CaseResult): boolean => r.source === 'treadmill' || r.source === 'overground';

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
    { title: 'Simulated steady running, 500 Hz', rows: rowsBy('set', (r) => r.source === 'simulated steady') },
    {
      title: 'Sprints of another maker, events painted onto curves (its bias means nothing)',
      rows: rowsBy('set', (r) => r.source === 'painted sprint'),
    },
    {
      title: 'Standing, walking, jumping, hopping, dropped: nothing may be found',
      rows: rowsBy('set', (r) => r.source === 'simulated other'),
    },
    {
      title: 'Angles: markers on treadmill and ground, simulated sprints and steady running',
      quantities: ANGLES,
      rows: MOUNTINGS.flatMap((m) => [
        select(`${m}, markers`, (r) => onPlates(r) && isPlain(r) && r.mounting === m),
        select(`${m}, simulated`, (r) => !onPlates(r) && isPlain(r) && r.mounting === m),
      ]),
    },
  ];
  return sections
    .map((section) => ({ ...section, rows: section.rows.filter((row) => row.cases > 0) }))
    .filter((section) => section.rows.length > 0);
}
