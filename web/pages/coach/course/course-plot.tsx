import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import type { QuantityCourse } from '../../../../shared/schemas/coach/course-view.ts';
import { formatShortDate } from '../../../app/format.ts';
import { PlotFrame } from '../../../parts/plot/frame.tsx';
import { Marker } from '../../../parts/plot/marks.tsx';
import { rangeOf } from '../../../parts/plot/scale.ts';
import { dayNumber } from '../../../../shared/dates.ts';
import { dateTicks } from '../parts/date-axis.ts';
import { displayQuantity } from '../quantity-text.ts';

const t = phrasesOf('course', courseWords);
const common = phrasesOf('common', commonWords);

interface CoursePlotProps {
  course: QuantityCourse;
  height?: number;
  /** False leaves the line through the weeks out, where before and now are what is looked at. */
  withTrend?: boolean;
}

/** Sessions as diamonds, single repetitions faint, normal variation now at the right edge, trend with its 95 % band. */
export function CoursePlot({ course, height = 280, withTrend = true }: CoursePlotProps) {
  const { quantity, sessions, repetitions, normal, block } = course;
  const trend = withTrend ? course.trend : null;
  const { label, unit, factor } = displayQuantity(quantity);
  const shown = (value: number) => value * factor;
  const first = dayNumber(sessions[0].date);
  const last = dayNumber(sessions.at(-1)!.date);
  const pad = Math.max(2, (last - first) * 0.04);
  const values = [
    ...repetitions.map((entry) => shown(entry.value)),
    ...(trend?.band.flatMap((point) => [shown(point.low), shown(point.high)]) ?? []),
    ...(normal ? [shown(normal.low), shown(normal.high)] : []),
  ];
  const centre = Math.abs(values[0] ?? 1);
  const [min, max] = rangeOf(values, centre * 0.08);
  return (
    <>
      <PlotFrame
        description={t('over_sessions_from_to_the', {
          label,
          n_sessions: sessions.length,
          date: formatShortDate(sessions[0].date),
          date_2: formatShortDate(sessions.at(-1)!.date),
        })}
        height={height}
        x={{ min: first - pad, max: last + 2 * pad, label: common('replay_session'), ...dateTicks(first, last) }}
        y={{ min, max, label: unit === '' ? label : `${label} (${unit === 'deg' ? '°' : unit})` }}
      >
        {(area) => {
          const at = (date: string, value: number) =>
            `${area.x(dayNumber(date)).toFixed(1)} ${area.y(shown(value)).toFixed(1)}`;
          const edge = (key: 'low' | 'high' | 'value') =>
            trend?.band.map((point, index) => `${index ? 'L' : 'M'}${at(point.date, point[key])}`).join('') ?? '';
          return (
            <>
              {trend && (
                <>
                  <path
                    class="trend-band"
                    d={`${edge('high')}${[...trend.band]
                      .reverse()
                      .map((point) => `L${at(point.date, point.low)}`)
                      .join('')}Z`}
                  />
                  <path class="trend-line" d={edge('value')} />
                </>
              )}
              {normal && (
                <rect
                  class="band"
                  x={area.x(last + pad * 0.8)}
                  width={Math.max(6, area.x(last + pad * 1.6) - area.x(last + pad * 0.8))}
                  y={area.y(shown(normal.high))}
                  height={Math.max(2, area.y(shown(normal.low)) - area.y(shown(normal.high)))}
                />
              )}
              {repetitions.map((entry) => (
                <circle
                  key={entry.repetition_id}
                  class="repetition-dot"
                  cx={area.x(dayNumber(entry.date))}
                  cy={area.y(shown(entry.value))}
                  r="2.5"
                />
              ))}
              {block && (
                <line
                  class="block-begins"
                  x1={area.x(dayNumber(block.from_date) - 0.5)}
                  x2={area.x(dayNumber(block.from_date) - 0.5)}
                  y1={area.top}
                  y2={area.bottom}
                />
              )}
              {block &&
                ([block.before, block.now] as const).map((level, index) => (
                  <g key={level.first_date}>
                    <line
                      class="change-line"
                      x1={area.x(dayNumber(level.first_date))}
                      x2={area.x(dayNumber(level.last_date))}
                      y1={area.y(shown(level.value))}
                      y2={area.y(shown(level.value))}
                    />
                    <text class="tick" x={area.x(dayNumber(level.first_date))} y={area.y(shown(level.value)) - 10}>
                      {index === 0 ? t('before') : t('now')}
                    </text>
                  </g>
                ))}
              {sessions.map((session) => (
                <Marker
                  key={session.session_id}
                  side="unknown"
                  cx={area.x(dayNumber(session.date))}
                  cy={area.y(shown(session.value))}
                />
              ))}
            </>
          );
        }}
      </PlotFrame>
      <p class="quiet small">
        {t('diamonds_sessions_dots_single_repetitions')}
        {trend && t('long_line_the_way_it')}
        {block && t('thick_lines_before_the_block')}
        {normal && t('bar_at_the_right_normal')}
      </p>
    </>
  );
}
