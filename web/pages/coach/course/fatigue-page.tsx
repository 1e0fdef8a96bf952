import { phrasesOf } from '../../../app/language.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import '../coach.css';
import type { FatigueLine, FatigueView } from '../../../../shared/schemas/coach/course-view.ts';
import { formatDate, formatNumber } from '../../../app/format.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { PlotFrame } from '../../../parts/plot/frame.tsx';
import { linePath, Marker } from '../../../parts/plot/marks.tsx';
import { rangeOf } from '../../../parts/plot/scale.ts';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { coachPaths } from '../coach-api.ts';
import { CautionList } from '../parts/caution-list.tsx';
import { displayQuantity } from '../quantity-text.ts';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('course', courseWords);

/** How each athlete's repetitions drift through a session, with the coach's stop rule. */
export default function FatiguePage({ params }: PageProps) {
  const fatigue = useResource<FatigueView>(coachPaths.fatigue(params.session_id));
  return (
    <ResourceView resource={fatigue} name={common('the_session')}>
      {(view) => {
        const athletes = new Map<number, FatigueLine[]>();
        for (const line of view.lines) athletes.set(line.athlete_id, [...(athletes.get(line.athlete_id) ?? []), line]);
        return (
          <>
            <p class="trail">
              <a href={`#/field/${params.session_id}`}>{common('page_Field')}</a>
            </p>
            <h1>{common('through_the_session')}</h1>
            <p>
              {t('like_repetitions_only_same_effort', {
                title: view.title,
                session_date: formatDate(view.session_date),
              })}
              {view.limit_percent === null
                ? t('your_stop_rule_for_speed')
                : t('you_think_of_stopping_when', { limit_percent: view.limit_percent })}
            </p>
            {athletes.size === 0 && (
              <section class="empty">
                <h2>{t('too_few_repetitions')}</h2>
                <p>{t('two_like_repetitions_of_an')}</p>
              </section>
            )}
            {[...athletes.values()].map((lines) => (
              <section class="sheet" key={lines[0].athlete_id}>
                <h2>
                  <a href={`#/athletes/${lines[0].athlete_id}`}>{lines[0].name}</a>
                </h2>
                <div class="fatigue-lines">
                  {lines.map((line) => (
                    <FatigueSection key={`${line.quantity}${line.effort_percent}${line.distance_m}`} line={line} />
                  ))}
                </div>
              </section>
            ))}
            <CautionList cautions={view.cautions} />
          </>
        );
      }}
    </ResourceView>
  );
}

function FatigueSection({ line }: { line: FatigueLine }) {
  const { label, unit, factor } = displayQuantity(line.quantity);
  const points = line.repetitions.map((entry, index) => ({ x: index + 1, y: entry.value * factor }));
  const [min, max] = rangeOf(
    points.map((point) => point.y),
    Math.abs(points[0].y) * 0.08,
  );
  return (
    <div>
      <p class={line.stop ? 'stop-advice' : undefined}>
        {line.sentence}
        {line.effort_percent !== null && <span class="quiet">{t('at', { effort_percent: line.effort_percent })}</span>}
      </p>
      <PlotFrame
        description={t('of_by_repetition', {
          label,
          name: line.name,
          values: line.repetitions.map((entry) => formatNumber(entry.value * factor, 2)).join(', '),
        })}
        height={180}
        x={{
          min: 0.5,
          max: Math.max(2, points.length) + 0.5,
          label: common('repetition_axis'),
          ticks: points.map((point) => point.x),
          format: (x) => String(line.repetitions[x - 1]?.order_number ?? ''),
        }}
        y={{ min, max, label: unit || label }}
      >
        {(area) => (
          <>
            <path class="series plain" d={linePath(points, area)} />
            {points.map((point) => (
              <Marker key={point.x} side="unknown" cx={area.x(point.x)} cy={area.y(point.y)} />
            ))}
          </>
        )}
      </PlotFrame>
    </div>
  );
}
