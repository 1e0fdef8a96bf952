/** Accuracy judged by runner: how runners differ, beside how contacts of one do; who is worst; whose intervals do not hold. */
import { mean, standardDeviation } from '../../../dsp/numeric/statistics.ts';
import type { CaseResult, StatedError } from './judge-case.ts';
import { coverage } from './pool.ts';
import { isPlain, MOUNTINGS, onPlates } from './report-sections.ts';
import type { TargetLine } from './targets.ts';

const QUANTITIES = ['touchdown', 'toe_off', 'contact_time'] as const;
type Instant = (typeof QUANTITIES)[number];

export interface RunnerFigures {
  n: number;
  runners: number;
  bias: number;
  sd: number;
  /** SD between the runners' means; null with one runner. */
  between: number | null;
  /** Root mean square of the SDs within runners. */
  within: number;
  worst: { runner: string; bias: number };
  coverage: number;
  least: { runner: string; coverage: number };
  /** Share of contacts beyond 25 ms and three times the stated uncertainty. */
  astray: number;
}

export interface RunnerSet {
  set: string;
  found: number;
  reference: number;
  extra: number;
  /** Contacts whose quantity is given, of those found. */
  given: Record<Instant, number>;
  figures: Partial<Record<Instant, RunnerFigures>>;
}

interface SetRule {
  set: string;
  keep: (r: CaseResult) => boolean;
}

const channelsOf = (gyroscope: boolean): string => (gyroscope ? 'with gyroscope' : 'accelerometer alone');

/** The sets of recordings of people: each mounting with and without gyroscope, running and sprinting. */
function rules(): SetRule[] {
  const kinds = [true, false].flatMap((gyroscope) => MOUNTINGS.map((mounting) => ({ gyroscope, mounting })));
  const plain = (r: CaseResult, gyroscope: boolean): boolean =>
    onPlates(r) && (gyroscope ? isPlain(r) : r.variant === 'no gyroscope');
  return [
    ...kinds.map(({ gyroscope, mounting }) => ({
      set: `treadmill, ${mounting}, ${channelsOf(gyroscope)}`,
      keep: (r: CaseResult) => r.source === 'treadmill' && r.mounting === mounting && plain(r, gyroscope),
    })),
    ...kinds.map(({ gyroscope, mounting }) => ({
      set: `sprint over plates, ${mounting}, ${channelsOf(gyroscope)}`,
      keep: (r: CaseResult) => r.name.includes('sprint') && r.mounting === mounting && plain(r, gyroscope),
    })),
  ];
}

export function runnerSets(results: CaseResult[]): RunnerSet[] {
  return rules().flatMap(({ set, keep }) => {
    const own = results.filter(keep);
    if (own.length === 0) return [];
    const total = (key: 'found' | 'reference' | 'extra'): number => own.reduce((sum, r) => sum + r[key], 0);
    const errors = (quantity: Instant): StatedError[] => own.flatMap((r) => r.errors[quantity]);
    return {
      set,
      found: total('found'),
      reference: total('reference'),
      extra: total('extra'),
      given: Object.fromEntries(QUANTITIES.map((q) => [q, errors(q).length])) as Record<Instant, number>,
      figures: Object.fromEntries(
        QUANTITIES.flatMap((q) => (errors(q).length > 0 ? [[q, figuresOf(own, q)]] : [])),
      ) as RunnerSet['figures'],
    };
  });
}

function figuresOf(results: CaseResult[], quantity: Instant): RunnerFigures {
  const names = [...new Set(results.map((r) => r.runner ?? r.name))];
  const runners = names
    .map((runner) => {
      const own = results.filter((r) => (r.runner ?? r.name) === runner).flatMap((r) => r.errors[quantity]);
      return { runner, own, errors: own.map((e) => e.error), coverage: coverage(own) ?? 0 };
    })
    .filter(({ own }) => own.length > 0);
  const all = runners.flatMap(({ own }) => own);
  const errors = all.map((e) => e.error);
  const means = runners.map((r) => mean(r.errors));
  const worst = runners[means.reduce((w, m, k) => (Math.abs(m) > Math.abs(means[w]) ? k : w), 0)];
  const least = runners.reduce((a, b) => (b.coverage < a.coverage ? b : a));
  const within = runners.filter((r) => r.errors.length > 1).map((r) => standardDeviation(r.errors) ** 2);
  return {
    n: all.length,
    runners: runners.length,
    bias: mean(errors),
    sd: standardDeviation(errors),
    between: means.length > 1 ? standardDeviation(means) : null,
    within: Math.sqrt(mean(within)),
    worst: { runner: worst.runner, bias: mean(worst.errors) },
    coverage: coverage(all) ?? 0,
    least: { runner: least.runner, coverage: least.coverage },
    astray: mean(all.map((e) => Number(Math.abs(e.error) > 25 && Math.abs(e.error) > 3 * (e.stated_u ?? 0)))),
  };
}

const NAMES: Record<Instant, string> = { touchdown: 'touchdown', toe_off: 'toe-off', contact_time: 'contact time' };

export function runnerTable(sets: RunnerSet[]): string {
  return sets
    .map(({ set, found, reference, extra, figures }) => {
      const share = (n: number): string => `${((100 * n) / reference).toFixed(2)} %`;
      const lines = QUANTITIES.flatMap((q) => (figures[q] ? [`  ${NAMES[q].padEnd(14)}${line(figures[q])}`] : []));
      return [`${set}: ${share(found)} of ${reference} found, ${share(extra)} extra`, ...lines].join('\n');
    })
    .join('\n');
}

function line(f: RunnerFigures): string {
  const percent = (share: number, digits = 1): string => `${(100 * share).toFixed(digits)} %`;
  const between = f.between === null ? '' : `between ${f.runners} runners ${f.between.toFixed(1)}, `;
  return (
    `${signed(f.bias)} +- ${f.sd.toFixed(1)} ms (${between}within ${f.within.toFixed(1)}); worst ${f.worst.runner} ${signed(f.worst.bias)}; ` +
    `intervals hold ${percent(f.coverage)}, least ${f.least.runner} ${percent(f.least.coverage)}; ` +
    `beyond 25 ms and 3 u ${percent(f.astray, 2)} (n ${f.n})`
  );
}

const signed = (value: number): string => `${value >= 0 ? '+' : ''}${value.toFixed(1)}`;

/** Shank, 1125 Hz, a network trained on 12 sprinters, against film at 250 Hz. */
const PUBLISHED_SPRINT = 'Friedl 2026, doi 10.3390/s26010342: 100 % found, bias below 1, limits +-15 ms';
const FALBRIARD = 'bias < 12 +- 10, precision < 4 +- 3 Falbriard 2018, doi 10.3389/fphys.2018.00610';
const NOT_GIVEN = 'not given by any';

interface Wanted {
  bias: number;
  sd: number | null;
  between: number | null;
}

/** Bounds by the beginning of a set's name; ms. */
const WANTED: Record<string, Partial<Record<Instant, Wanted>>> = {
  'treadmill, foot, with gyroscope': {
    touchdown: { bias: 1, sd: 3.2, between: 2 },
    toe_off: { bias: 1, sd: 4.7, between: 3 },
  },
  'treadmill, shank, with gyroscope': {
    touchdown: { bias: 2, sd: 4.5, between: null },
    toe_off: { bias: 2, sd: 5.5, between: null },
  },
  'treadmill, foot, accelerometer alone': { contact_time: { bias: 4, sd: 7, between: null } },
  'treadmill, shank, accelerometer alone': { contact_time: { bias: 4, sd: 11, between: null } },
  'sprint over plates, foot, with gyroscope': {
    touchdown: { bias: 3, sd: null, between: null },
    toe_off: { bias: 4, sd: null, between: null },
  },
  'sprint over plates, shank, with gyroscope': {
    touchdown: { bias: 3, sd: null, between: null },
    toe_off: { bias: 5, sd: null, between: null },
  },
};

/** The lines of the target table that are judged by runner. */
export function runnerTargets(sets: RunnerSet[]): TargetLine[] {
  return sets.flatMap((own) => {
    const sprint = own.set.startsWith('sprint');
    const published = sprint ? PUBLISHED_SPRINT : FALBRIARD;
    const lines = Object.entries(WANTED[own.set] ?? {}).flatMap(([quantity, wanted]): TargetLine[] => {
      const f = own.figures[quantity as Instant];
      const what = `${NAMES[quantity as Instant]}, ${own.set}`;
      return f ? [accuracyLine(what, f, wanted, published), coverageLine(what, f, sprint)] : [];
    });
    const found = own.found / own.reference;
    const extra = own.extra / own.reference;
    return [
      {
        what: `contacts, ${own.set}`,
        target: 'found 99.5 %, extra 0.2 %',
        published,
        reached: `${(100 * found).toFixed(2)} %, ${(100 * extra).toFixed(2)} %`,
        met: found >= 0.995 && extra <= 0.002,
      },
      ...lines,
    ];
  });
}

function accuracyLine(what: string, f: RunnerFigures, { bias, sd, between }: Wanted, published: string): TargetLine {
  const parts = [
    `bias within ${bias}`,
    ...(sd === null ? [] : [`SD ${sd}`]),
    ...(between === null ? [] : [`between runners ${between}`]),
  ];
  return {
    what,
    target: `${parts.join(', ')} ms`,
    published,
    reached: `${signed(f.bias)} +- ${f.sd.toFixed(1)} ms, between ${f.between?.toFixed(1) ?? '-'}`,
    met: Math.abs(f.bias) <= bias && (sd === null || f.sd <= sd) && (between === null || (f.between ?? 0) <= between),
  };
}

function coverageLine(what: string, f: RunnerFigures, sprint: boolean): TargetLine {
  const [pooled, least] = [f.coverage, f.least.coverage];
  return {
    what: `intervals of ${what}`,
    target: sprint ? 'hold 90 % and more' : 'hold 93 to 97 %, no runner below 80 %, beyond 25 ms and 3 u 0.3 %',
    published: NOT_GIVEN,
    reached: `${(100 * pooled).toFixed(1)} %, least ${f.least.runner} ${(100 * least).toFixed(0)} %, ${(100 * f.astray).toFixed(2)} %`,
    met: sprint ? pooled >= 0.9 : pooled >= 0.93 && pooled <= 0.97 && least >= 0.8 && f.astray <= 0.003,
  };
}
