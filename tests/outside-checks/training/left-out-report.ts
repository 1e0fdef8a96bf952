/** What left-out runners say of a model, in lines. */
import { type ContactModel, type Interval, intervalAt } from '../../../dsp/learned/contact-model.ts';
import { heardTogether } from '../../../dsp/learned/second-stage.ts';
import { mean, standardDeviation } from '../../../dsp/numeric/statistics.ts';
import type { LeftOut } from './fit-model.ts';

interface Judged {
  runner: string;
  error_ms: number;
  held: boolean;
}

export function leftOutReport(alone: readonly LeftOut[], model: ContactModel): string {
  const { intervals } = model;
  const answers = alone.map(({ example, learned }) => ({
    example,
    learned: learned && heardTogether(learned, example.found.contact, model),
  }));
  const judged = (interval: Interval, of: (a: Required<LeftOut>) => [number, number]): Judged[] =>
    answers.flatMap((answer) => {
      if (!answer.learned) return [];
      const [error_s, spread_s] = of(answer);
      const held = Math.abs(error_s) <= 1.96 * intervalAt(interval, spread_s);
      return [{ runner: answer.example.runner, error_ms: 1000 * error_s, held }];
    });
  return [
    line(
      'touchdown',
      judged(intervals.touchdown, ({ learned: l, example: e }) => [
        l!.touchdown_s - e.touchdown_s,
        l!.touchdown_spread_s,
      ]),
    ),
    line(
      'toe-off',
      judged(intervals.toe_off, ({ learned: l, example: e }) => [l!.toe_off_s - e.toe_off_s, l!.toe_off_spread_s]),
    ),
    line(
      'contact time',
      judged(intervals.contact_time, ({ learned: l, example: e }) => [
        l!.toe_off_s - l!.touchdown_s - (e.toe_off_s - e.touchdown_s),
        Math.hypot(l!.touchdown_spread_s, l!.toe_off_spread_s),
      ]),
    ),
  ].join('\n');
}

function line(what: string, all: readonly Judged[]): string {
  const runners = [...new Set(all.map(({ runner }) => runner))].map((runner) => {
    const own = all.filter((j) => j.runner === runner);
    return { runner, bias: mean(own.map((j) => j.error_ms)), held: mean(own.map((j) => Number(j.held))) };
  });
  const errors = all.map((j) => j.error_ms);
  const furthest = runners.reduce((a, b) => (Math.abs(b.bias) > Math.abs(a.bias) ? b : a));
  const least = runners.reduce((a, b) => (b.held < a.held ? b : a));
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  return [
    `  ${what.padEnd(13)}${mean(errors).toFixed(1)} +- ${standardDeviation(errors).toFixed(1)} ms`,
    `between runners ${standardDeviation(runners.map((r) => r.bias)).toFixed(1)}`,
    `worst ${furthest.runner} ${furthest.bias.toFixed(1)}`,
    `intervals hold ${percent(mean(all.map((j) => Number(j.held))))}, least ${least.runner} ${percent(least.held)}`,
    `beyond 25 ms ${percent(mean(errors.map((e) => Number(Math.abs(e) > 25))))}`,
  ].join('; ');
}
