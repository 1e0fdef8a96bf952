/** What the detector must reach, beside what it reaches. Targets: the project's design; published figures for comparison. */
import type { Quantity } from './judge-case.ts';
import type { Figures, QuantityFigures } from './pool.ts';

export interface TargetLine {
  what: string;
  target: string;
  /** Best published with the same kind of sensor; source named. */
  published: string;
  reached: string;
  met: boolean;
}

const signed = (value: number, digits = 1) => `${value >= 0 ? '+' : ''}${value.toFixed(digits)}`;

export function foundTarget(what: string, figures: Figures, least: number): TargetLine {
  const share = figures.reference === 0 ? 1 : figures.found / figures.reference;
  return {
    what,
    target: `>= ${(100 * least).toFixed(1)} % found, none extra`,
    published: '96 % Schmidt 2016; 97.1 % Blauberger 2021, doi 10.3390/s21217331',
    reached: `${(100 * share).toFixed(2)} % (${figures.missed} missed, ${figures.extra} extra of ${figures.reference})`,
    met: share >= least && figures.extra === 0,
  };
}

/** Pooled bias and SD of a quantity. */
export function spreadTarget(
  what: string,
  figures: Figures,
  quantity: Quantity,
  limit: { bias: number; sd: number; unit: string },
  published: string,
): TargetLine {
  const q = figures.quantities[quantity];
  return {
    what,
    target: `bias within ${limit.bias}, SD <= ${limit.sd} ${limit.unit}`,
    published,
    reached: q ? `${signed(q.bias.value)} +- ${q.sd.toFixed(1)} ${limit.unit} (n ${q.n})` : 'not measured',
    met: q !== undefined && Math.abs(q.bias.value) <= limit.bias && q.sd <= limit.sd,
  };
}

/** Every case by itself. */
export function everyCaseTarget(
  what: string,
  figures: Figures,
  quantity: Quantity,
  limit: { bias: number; sd: number; unit: string },
  published: string,
): TargetLine {
  const q = figures.quantities[quantity];
  return {
    what,
    target: `every trial: bias within ${limit.bias}, SD <= ${limit.sd} ${limit.unit}`,
    published,
    reached: q ? `worst bias ${signed(q.worst_bias)}, worst SD ${q.worst_sd.toFixed(1)} ${limit.unit}` : 'not measured',
    met: q !== undefined && Math.abs(q.worst_bias) <= limit.bias && q.worst_sd <= limit.sd,
  };
}

export function rootMeanSquareTarget(
  what: string,
  figures: Figures,
  quantity: Quantity,
  limit: { value: number; unit: string },
  published: string,
): TargetLine {
  const q = figures.quantities[quantity];
  return {
    what,
    target: `RMSE <= ${limit.value} ${limit.unit}`,
    published,
    reached: q ? `${q.root_mean_square.toFixed(1)} ${limit.unit} (n ${q.n})` : 'not measured',
    met: q !== undefined && q.root_mean_square <= limit.value,
  };
}

export function coverageTarget(what: string, q: QuantityFigures | undefined): TargetLine {
  const share = q?.coverage ?? null;
  return {
    what,
    target: '95 % intervals cover 93 to 97 %',
    published: 'not given by any',
    reached: share === null ? 'no uncertainty stated' : `${(100 * share).toFixed(1)} % (n ${q?.n})`,
    met: share !== null && share >= 0.93 && share <= 0.97,
  };
}
