import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { testsWords } from '../../../../shared/messages/en/view/tests.ts';
import type { SprintSeries } from '../../../../shared/schemas/coach/sprint-test-view.ts';
import { formatShortDate } from '../../../app/format.ts';
import { PlotFrame } from '../../../parts/plot/frame.tsx';
import { Marker, linePath } from '../../../parts/plot/marks.tsx';
import { rangeOf } from '../../../parts/plot/scale.ts';
import { dayNumber } from '../../../../shared/dates.ts';
import { dateTicks } from '../parts/date-axis.ts';

const t = phrasesOf('tests', testsWords);
const common = phrasesOf('common', commonWords);

/** Times of one series over the dates, each with the error of its method. Down is faster. */
export function SeriesPlot({ series }: { series: SprintSeries }) {
  const { tests, error_s } = series;
  const all = tests.map((test) => ({ id: test.sprint_test_id, x: dayNumber(test.date), y: test.time_s }));
  const points = all.filter((point) => series.best_ids.includes(point.id));
  const [min, max] = rangeOf(
    [...all.map((point) => point.y), ...points.flatMap((point) => [point.y - error_s, point.y + error_s])],
    0.3,
  );
  const first = points[0].x;
  const last = points.at(-1)!.x;
  const pad = Math.max(2, (last - first) * 0.05);
  return (
    <PlotFrame
      description={t('sprint_times_of_tests_from', {
        n_tests: tests.length,
        date: formatShortDate(tests[0].date),
        date_2: formatShortDate(tests.at(-1)!.date),
      })}
      height={240}
      x={{ min: first - pad, max: last + pad, label: common('date'), ...dateTicks(first, last) }}
      y={{ min, max, label: t('time_s') }}
    >
      {(area) => (
        <>
          {points.map(({ x, y }) => (
            <path
              key={x}
              class="whisker unknown"
              d={`M${area.x(x)} ${area.y(y - error_s)}V${area.y(y + error_s)}M${area.x(x) - 4} ${area.y(y - error_s)}h8M${area.x(x) - 4} ${area.y(y + error_s)}h8`}
            />
          ))}
          {all.map(({ id, x, y }) => (
            <circle key={id} class="repetition-dot" cx={area.x(x)} cy={area.y(y)} r="3" />
          ))}
          <path class="series plain" d={linePath(points, area)} />
          {points.map(({ x, y }) => (
            <Marker key={x} side="unknown" cx={area.x(x)} cy={area.y(y)} />
          ))}
        </>
      )}
    </PlotFrame>
  );
}
