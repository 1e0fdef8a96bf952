import { niceTicks } from '../../shared/nice-ticks.ts';
import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import type { AgreementPair, AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';
import type { Figure } from '../figures/figure.ts';
import { mainSentences } from './study-words.ts';

/** The figure of one quantity of a study; null where it was not compared. */
export function studyFigure(study: AgreementStudy, quantity: string, words: JudgementWords): Figure | null {
  const found = study.quantities.find((one) => one.quantity === quantity);
  if (!found) return null;
  const pairs = study.pairs.filter((pair) => pair.quantity === quantity);
  return { ...differenceFigure(found, pairs, words), caption: captionOf(study, found, words) };
}

/** Differences over means, with bias, limits of agreement, their intervals, and the line of proportional bias. */
export function differenceFigure(q: QuantityAgreement, pairs: AgreementPair[], words: JudgementWords): Figure {
  const t = words.coach.agreement;
  // Instants grow with time along the recording: they stand over the instant, in seconds.
  const instants = q.quantity === 'touchdown' || q.quantity === 'toe-off';
  const points = pairs.map((p) => ({
    ...p,
    mean: (p.ours + p.reference) / (instants ? 2000 : 2),
    difference: p.ours - p.reference,
  }));
  const sizes = points.map(({ difference }) => Math.abs(difference));
  const reach = 1.05 * Math.max(1e-9, ...sizes, Math.abs(q.lower_limit.low), Math.abs(q.upper_limit.high));
  const [low, high] = [Math.min(...points.map((p) => p.mean)), Math.max(...points.map((p) => p.mean))];
  const across = (value: number): [number, number][] => [
    [low, value],
    [high, value],
  ];
  const athletes = [...new Set(pairs.map(({ athlete }) => athlete))];
  const proportional = q.proportional_intercept !== null && q.proportional_slope;
  return {
    title: t('figure_title', { quantity: words.label(q.quantity) }),
    caption: '',
    x: {
      label: instants ? t('instant_axis') : t('mean_axis', { unit: q.unit }),
      low,
      high,
      ticks: niceTicks(low, high, 6),
    },
    y: {
      label: t('difference_axis', { unit: q.unit }),
      low: -reach,
      high: reach,
      ticks: niceTicks(-reach, reach, 5),
    },
    areas: [q.bias, q.lower_limit, q.upper_limit].map((interval) => ({
      points: [low, high].map((x) => ({ x, low: interval.low, high: interval.high })),
      opacity: 0.15,
    })),
    lines: [
      ...(proportional
        ? [
            {
              points: [low, high].map((size): [number, number] => [
                size,
                q.proportional_intercept! + proportional.value * size,
              ]),
              colour: 'ink' as const,
              width: 0.8,
              dash: [1, 2] as [number, number],
            },
          ]
        : []),
      { points: across(q.bias.value), colour: 'ink' },
      { points: across(q.lower_limit.value), colour: 'ink', dash: [4, 3] },
      { points: across(q.upper_limit.value), colour: 'ink', dash: [4, 3] },
    ],
    marks: points.map((p) => ({
      x: p.mean,
      y: p.difference,
      side: p.side === 'right' ? 'right' : 'left',
      shape: athletes.indexOf(p.athlete),
    })),
    legend: [
      { label: t('left'), side: 'left', shape: 0, colour: 'left' },
      { label: t('right'), side: 'right', shape: 0, colour: 'right' },
      ...athletes.map((athlete, shape) => ({ label: athlete, side: 'left' as const, shape, colour: 'ink' as const })),
    ],
    data: points.map(({ athlete, recording, side, reference, ours, mean, difference }) => ({
      athlete,
      recording,
      side,
      reference,
      ours,
      mean,
      difference,
    })),
  };
}

function captionOf({ version, method }: AgreementStudy, q: QuantityAgreement, words: JudgementWords): string {
  const t = words.coach.agreement;
  const told = { quantity: words.label(q.quantity), unit: q.unit, ...mainSentences(q, words) };
  return `${t('caption', told)} ${t('made_by', { version, method })}`;
}
