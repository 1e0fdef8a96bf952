import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { testsWords } from '../../../../shared/messages/en/view/tests.ts';
import type { StrengthLog } from '../../../../shared/schemas/coach/strength.ts';
import { dayNumber } from '../../../../shared/dates.ts';
import { KILOGRAMS_PER_POUND } from '../../../../shared/units.ts';
import { formatNumber, formatShortDate, formatTime } from '../../../app/format.ts';
import { preferences } from '../../../app/preferences.ts';
import { PlotFrame } from '../../../parts/plot/frame.tsx';
import { linePath, Marker } from '../../../parts/plot/marks.tsx';
import { rangeOf } from '../../../parts/plot/scale.ts';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { dateTicks } from '../parts/date-axis.ts';

const t = phrasesOf('tests', testsWords);
const common = phrasesOf('common', commonWords);

type OverTime = StrengthLog['over_time'];

/** Best single squats over the sprint tests, on one axis of dates: two courses to look at together, no cause. */
export function StrengthOverTime({ over_time }: { over_time: OverTime }) {
  const { squat, sprints, sprint_title } = over_time;
  if (squat.length === 0 || sprints.length === 0) return null;
  const days = [...squat, ...sprints].map((entry) => dayNumber(entry.date));
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const pad = Math.max(2, (last - first) * 0.05);
  const x = { min: first - pad, max: last + pad, ...dateTicks(first, last) };
  const pounds = preferences.value.mass === 'lb';
  const load = (kg: number) => (pounds ? kg / KILOGRAMS_PER_POUND : kg);
  return (
    <section class="sheet">
      <h2>{t('strength_beside_sprint_time')}</h2>
      <Course
        points={squat.map((entry) => ({ x: dayNumber(entry.date), y: load(entry.single_kg) }))}
        x={{ ...x, label: '' }}
        y={t('squat_best_single', { unit: pounds ? 'lb' : 'kg' })}
        least={load(5)}
      />
      <Course
        points={sprints.map((entry) => ({ x: dayNumber(entry.date), y: entry.time_s }))}
        x={{ ...x, label: common('date') }}
        y="time (s)"
        least={0.3}
      />
      <p class="quiet small">{t('above_the_best_single_squat', { sprint_title })}</p>
      <OverTimeTable over_time={over_time} />
    </section>
  );
}

interface CourseProps {
  points: { x: number; y: number }[];
  x: { min: number; max: number; label: string };
  y: string;
  /** Least height of the axis, so that little does not look like much. */
  least: number;
}

function Course({ points, x, y, least }: CourseProps) {
  const [min, max] = rangeOf(
    points.map((point) => point.y),
    least,
  );
  return (
    <PlotFrame description={t('by_date_the_numbers_stand', { y })} height={170} x={x} y={{ min, max, label: y }}>
      {(area) => (
        <>
          <path class="series plain" d={linePath(points, area)} />
          {points.map((point) => (
            <Marker key={point.x} side="unknown" cx={area.x(point.x)} cy={area.y(point.y)} />
          ))}
        </>
      )}
    </PlotFrame>
  );
}

function OverTimeTable({ over_time }: { over_time: OverTime }) {
  const { squat, sprints, sprint_title } = over_time;
  const dates = [...new Set([...squat, ...sprints].map((entry) => entry.date))].sort().reverse();
  return (
    <details class="more">
      <summary>{common('the_numbers')}</summary>
      <TableScroll label={t('strength_beside_sprint_time')}>
        <table class="numbers">
          <caption class="visually-hidden">{t('best_single_squat_and_sprint')}</caption>
          <thead>
            <tr>
              <th scope="col" class="word">
                {common('date')}
              </th>
              <th scope="col">{t('squat_best_single_2')}</th>
              <th scope="col">{sprint_title}</th>
            </tr>
          </thead>
          <tbody>
            {dates.map((date) => {
              const lifted = squat.find((entry) => entry.date === date);
              const ran = sprints.find((entry) => entry.date === date);
              return (
                <tr key={date}>
                  <th scope="row" class="word">
                    {formatShortDate(date)}
                  </th>
                  <td>{lifted ? bothUnits(lifted.single_kg) : '–'}</td>
                  <td>{ran ? formatTime(ran.time_s) : '–'}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </TableScroll>
    </details>
  );
}

/** `91 kg (200 lb)`, the user's unit first. */
export function bothUnits(kg: number): string {
  const pounds = `${formatNumber(kg / KILOGRAMS_PER_POUND, 0)} lb`;
  const kilograms = `${formatNumber(kg, 0)} kg`;
  return preferences.value.mass === 'lb' ? `${pounds} (${kilograms})` : `${kilograms} (${pounds})`;
}
