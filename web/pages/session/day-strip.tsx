import { phrasesOf } from '../../app/language.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import type { AthleteSession } from '../../../shared/schemas/coach/standing.ts';
import { PlotFrame } from '../../parts/plot/frame.tsx';
import { Marker } from '../../parts/plot/marks.tsx';
import { rangeOf } from '../../parts/plot/scale.ts';
import { displayQuantity } from '../coach/quantity-text.ts';

const t = phrasesOf('session', sessionWords);

/**
 * One athlete's repetitions of the day on the quantity of the verdict: each as a diamond over its own normal, since efforts and
 * courses differ; what lies beyond chance has a ring.
 */
export function DayStrip({ athlete }: { athlete: AthleteSession }) {
  const quantity = athlete.verdict.quantity;
  const marks = athlete.marks.filter((mark) => mark.judged !== null);
  if (quantity === null || marks.length === 0) return null;
  const { label, unit, factor } = displayQuantity(quantity);
  const shown = (value: number) => value * factor;
  const values = marks.flatMap(({ judged }) => [judged!.value, judged!.normal_low, judged!.normal_high]);
  const known = values.filter((value) => value !== null).map(shown);
  const [min, max] = rangeOf(known, Math.abs(known[0]) * 0.1);
  const efforts = new Set(marks.map((mark) => mark.effort_percent));
  const built = efforts.size > 1 && !efforts.has(null);
  return (
    <figure class="day-strip">
      <figcaption class="quiet small">{label}</figcaption>
      <PlotFrame
        description={t('by_repetition_over_what_is', { label })}
        height={170}
        x={{
          min: 0.4,
          max: marks.length + 0.6,
          label: built ? t('repetition_effort') : t('repetition_3'),
          ticks: marks.map((_, index) => index + 1),
          format: (x) => {
            const mark = marks[x - 1];
            return mark ? `${mark.order_number}${built ? ` (${mark.effort_percent})` : ''}` : '';
          },
        }}
        y={{ min, max, label: unit === '' ? t('ratio') : unit === 'deg' ? '°' : unit }}
      >
        {(area) =>
          marks.map(({ repetition_id, judged }, index) => {
            const { value, normal_low, normal_high, beyond } = judged!;
            const x = area.x(index + 1);
            return (
              <g key={repetition_id}>
                {normal_low !== null && normal_high !== null && (
                  <rect
                    class="band"
                    x={x - 10}
                    width="20"
                    y={area.y(shown(normal_high))}
                    height={Math.max(2, area.y(shown(normal_low)) - area.y(shown(normal_high)))}
                  />
                )}
                <Marker side="unknown" cx={x} cy={area.y(shown(value))} beyond={beyond !== null} radius={5.5} />
              </g>
            );
          })
        }
      </PlotFrame>
    </figure>
  );
}
