import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import '../coach.css';
import type { CourseView, RunCondition } from '../../../../shared/schemas/coach/course-view.ts';
import type { StartStyle } from '../../../../shared/words.ts';
import { startStyleWords } from '../../../app/describe.ts';
import { preferences } from '../../../app/preferences.ts';
import { type PageProps, setQuery } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { AthleteHead } from '../athletes/athlete-head.tsx';
import { localToday } from '../../../app/format.ts';
import { coachPaths } from '../coach-api.ts';
import { CautionList } from '../parts/caution-list.tsx';
import { courseText, displayQuantity } from '../quantity-text.ts';
import { FigureLinks } from '../../../parts/figure-links.tsx';
import { CourseSection } from './course-section.tsx';

const t = phrasesOf('course', courseWords);
const common = phrasesOf('common', commonWords);

/** Quantities that come first in the choice; the rest follows. */
const FIRST = [
  'contact_time_ms',
  'speed_max_mps',
  'step_rate_hz',
  'step_length_m',
  'flight_time_ms',
  'contact_time_side_difference_ms',
  'acceleration_end_m',
];

/** Did it change? One quantity of one athlete over the weeks, at one effort and course. */
export default function CoursePage({ params, query }: PageProps) {
  const quantity = query.get('quantity') ?? 'contact_time_ms';
  const condition = query.get('condition');
  const question = new URLSearchParams({
    quantity,
    today: localToday(),
    length: preferences.value.length,
    ...(condition === null ? {} : { condition }),
  });
  const view = useResource<CourseView>(coachPaths.course(params.athlete_id, question.toString()));
  return (
    <ResourceView resource={view} name={t('the_course_over_time')}>
      {(value) => (
        <>
          <AthleteHead athlete_id={params.athlete_id} name={value.name} />
          {value.conditions.length === 0 || !value.course ? (
            <EmptyState title={t('nothing_measured_yet')}>
              <p>{t('after_each_session_one_point')}</p>
            </EmptyState>
          ) : (
            <>
              <div class="field-grid course-choice no-print">
                <SelectField
                  label={common('quantity')}
                  value={quantity}
                  options={[
                    ...new Set([...FIRST.filter((name) => value.quantities.includes(name)), ...value.quantities]),
                  ].map((name) => ({ value: name, label: displayQuantity(name).label }))}
                  onChange={(name) => setQuery('quantity', name)}
                />
                <SelectField
                  label={common('effort_and_course')}
                  value={value.condition?.key ?? ''}
                  options={value.conditions.map((item) => ({
                    value: item.key,
                    label: `${describeCondition(item)} (${item.repetitions})`,
                  }))}
                  onChange={(key) => setQuery('condition', key)}
                />
              </div>
              <CourseSection course={value.course} />
              {value.course.sessions.length > 0 && (
                <FigureLinks
                  name={`course-${quantity}`}
                  href={(form) => `/api${coachPaths.courseFigure(params.athlete_id, question.toString(), form)}`}
                />
              )}
              {value.growing && <p class="quiet">{t('is_growing_only_repetitions_of', { name: value.name })}</p>}
            </>
          )}
          <CautionList cautions={value.cautions} />
        </>
      )}
    </ResourceView>
  );
}

/** `40 yd, standing start, 100 %`. */
export function describeCondition(condition: RunCondition): string {
  return [
    condition.distance_m === null ? common('course_not_given') : courseText(condition.distance_m),
    condition.belt_speed_mps === null ? '' : common('belt_at', { speed_mps: condition.belt_speed_mps }),
    condition.start_style === null ? '' : startStyleWords(condition.start_style as StartStyle),
    condition.effort_percent === null ? '' : `${condition.effort_percent} %`,
  ]
    .filter(Boolean)
    .join(', ');
}
