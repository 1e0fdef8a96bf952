import { phrasesOf } from '../../../app/language.ts';
import { compareWords } from '../../../../shared/messages/en/view/compare.ts';
import { useState } from 'preact/hooks';
import type { ContactQuantity } from '../../../../shared/analysis.ts';
import type { ComparedStep, Comparison } from '../../../../shared/schemas/coach/comparison.ts';
import { displayOf, formatNumber } from '../../../app/format.ts';
import { PlotFrame } from '../../../parts/plot/frame.tsx';
import { linePath, type Point } from '../../../parts/plot/marks.tsx';
import { rangeOf } from '../../../parts/plot/scale.ts';

const t = phrasesOf('compare', compareWords);

export type CompareAxis = 'step' | 'distance';

interface ComparePlotProps {
  comparison: Comparison;
  quantity: ContactQuantity;
  by: CompareAxis;
}

interface PlacedPoint extends Point {
  y: number;
  half: number | null;
  step: number;
}

/** Both sides over each other along the run: A filled diamonds on a solid line, B open circles on a broken one, each with its 95 %. */
export function ComparePlot({ comparison, quantity, by }: ComparePlotProps) {
  const [at, setAt] = useState<number | null>(null);
  const { label, unit, factor, decimals } = displayOf(quantity);
  const distance = displayOf('distance_m');
  const place = (steps: readonly ComparedStep[]): PlacedPoint[] =>
    steps.flatMap((step) => {
      const known = step.values[quantity];
      const x = by === 'step' ? step.step : step.distance_m === null ? null : step.distance_m * distance.factor;
      if (!known || x === null) return [];
      return [{ x, y: known.value * factor, half: known.u === null ? null : 1.96 * known.u * factor, step: step.step }];
    });
  const [a, b] = [place(comparison.a.steps), place(comparison.b.steps)];
  const all = [...a, ...b];
  if (all.length === 0) return <p class="quiet">{t('this_was_not_measured_on')}</p>;
  const xs = all.map((point) => point.x);
  const [min, max] = rangeOf(
    all.flatMap((point) => [point.y - (point.half ?? 0), point.y + (point.half ?? 0)]),
    Math.abs(all[0].y) * 0.1,
  );
  const stops = a.length >= b.length ? a : b;
  const words = (index: number) => {
    const { step } = stops[index];
    const say = (points: readonly PlacedPoint[], letter: string) => {
      const point = points.find((one) => one.step === step);
      if (!point) return t('not_measured', { letter });
      return `${letter} ${formatNumber(point.y, decimals)}${point.half === null ? '' : ` ± ${formatNumber(point.half, decimals)}`}`;
    };
    return t('step', { step, label, a: say(a, 'A'), b: say(b, 'B'), unit }).trim();
  };
  return (
    <>
      <PlotFrame
        description={t('of_a_and_b_by', { label, by: t(by === 'step' ? 'by_steps' : 'by_distances') })}
        height={300}
        x={
          by === 'step'
            ? { min: 0.4, max: Math.max(...xs) + 0.6, label: t('step_axis') }
            : { min: Math.min(0, ...xs), max: Math.max(...xs) * 1.02, label: t('distance', { unit: distance.unit }) }
        }
        y={{ min, max, label: unit === '' ? label : `${label} (${unit})` }}
        explore={{ count: stops.length, index: at, xs: stops.map((point) => point.x), text: words, onMove: setAt }}
      >
        {(area) => (
          <>
            {[b, a].map((points, order) => {
              const letter = order === 0 ? 'b' : 'a';
              return (
                <g key={letter} class={`compared is-${letter}`}>
                  {points.map(
                    (point) =>
                      point.half !== null && (
                        <path
                          key={`w${point.step}`}
                          class="compared-whisker"
                          d={`M${area.x(point.x)} ${area.y(point.y - point.half)}V${area.y(point.y + point.half)}`}
                        />
                      ),
                  )}
                  <path class="compared-line" d={linePath(points, area)} />
                  {points.map((point) => (
                    <ComparedMark key={point.step} letter={letter} x={area.x(point.x)} y={area.y(point.y)} />
                  ))}
                </g>
              );
            })}
            {at !== null && stops[at] && (
              <line class="cursor" x1={area.x(stops[at].x)} x2={area.x(stops[at].x)} y1={area.top} y2={area.bottom} />
            )}
          </>
        )}
      </PlotFrame>
      <p class={at === null ? 'readout is-hint' : 'readout'} aria-live="polite">
        {at !== null && stops[at] ? words(at) : t('tap_the_plot_or_use')}
      </p>
    </>
  );
}

/** A: a filled diamond. B: an open circle. */
export function ComparedMark({ letter, x, y }: { letter: 'a' | 'b'; x: number; y: number }) {
  return letter === 'a' ? (
    <path class="compared-mark" d={`M${x} ${y - 5}L${x + 5} ${y}L${x} ${y + 5}L${x - 5} ${y}Z`} />
  ) : (
    <circle class="compared-mark" cx={x} cy={y} r="4.5" />
  );
}
