/** How often the stated 95 % intervals hold the truth, of every field that states one. */
import { quantile } from '../../../dsp/numeric/statistics.ts';
import type { CaseResult } from './judge-case.ts';
import { isPlain, onPlates } from './report-sections.ts';
import { GATE_SET, GOOD_SETS } from './simulated-sets.ts';
import type { FieldError } from './true-quantities.ts';

export interface Coverage {
  field: string;
  group: string;
  n: number;
  /** Share of errors within 1.96 stated uncertainties. */
  covered: number;
  /** How much wider (above 1) the intervals would have to be to hold exactly 95 %. */
  widen: number;
  bias: number;
  /** Median of the stated uncertainties. */
  usual_u: number;
}

const GROUPS: [string, (r: CaseResult) => boolean][] = [
  ['plates', onPlates],
  ['sprints', (r) => GOOD_SETS.includes(r.set)],
  ['off the curve', (r) => r.set === GATE_SET],
  ['part speed', (r) => r.set.startsWith('50 to 75')],
  ['steady', (r) => r.set === 'steady running'],
  ['second generator', (r) => r.source === 'second generator'],
];

/** Fewer errors than this say nothing about a share of 95 %. */
const LEAST = 15;

export function coverageOf(results: CaseResult[]): Coverage[] {
  return GROUPS.flatMap(([name, keep]) =>
    (['foot', 'shank'] as const).flatMap((mounting) => {
      const errors = results.filter((r) => r.mounting === mounting && isPlain(r) && keep(r)).flatMap((r) => r.stated);
      const fields = [...new Set(errors.map(({ field }) => field))];
      return fields.flatMap((field) => {
        const own = errors.filter((e) => e.field === field);
        return own.length < LEAST ? [] : [coverageOfField(field, `${name}, ${mounting}`, own)];
      });
    }),
  );
}

function coverageOfField(field: string, group: string, errors: FieldError[]): Coverage {
  const n = errors.length;
  // An error without a stated uncertainty is not covered by anything.
  const shares = errors.map(({ error, stated_u }) => (stated_u > 0 ? Math.abs(error) / stated_u : Number.MAX_VALUE));
  return {
    field,
    group,
    n,
    covered: shares.filter((share) => share <= 1.96).length / n,
    widen: quantile(shares, 0.95) / 1.96,
    bias: errors.reduce((sum, { error }) => sum + error, 0) / n,
    usual_u: quantile(
      errors.map(({ stated_u }) => stated_u),
      0.5,
    ),
  };
}

/** One line a field, one column a group: covered %, and in brackets how much wider the intervals would have to be. */
export function coverageTable(all: Coverage[]): string {
  const groups = [...new Set(all.map(({ group }) => group))];
  const fields = [...new Set(all.map(({ field }) => field))];
  const head = ''.padEnd(30) + groups.map((group) => group.padStart(19)).join('');
  const lines = fields.map(
    (field) =>
      field.padEnd(30) +
      groups
        .map((group) => {
          const own = all.find((c) => c.field === field && c.group === group);
          return (own ? `${(100 * own.covered).toFixed(1)} % (x ${own.widen.toFixed(2)})` : '-').padStart(19);
        })
        .join(''),
  );
  return [head, ...lines].join('\n');
}
