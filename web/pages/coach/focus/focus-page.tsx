import { phrasesOf } from '../../../app/language.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import { sensorOn } from '../../../app/mounting-words.ts';
import '../coach.css';
import type { FocusView } from '../../../../shared/schemas/coach/course-view.ts';
import { formatShortDate } from '../../../app/format.ts';
import type { PageProps } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { coachPaths } from '../coach-api.ts';
import { describeCondition } from '../course/course-page.tsx';
import { CourseSection } from '../course/course-section.tsx';
import { CautionList } from '../parts/caution-list.tsx';
import { displayQuantity } from '../quantity-text.ts';
import { FocusText } from './focus-text.tsx';

const t = phrasesOf('course', courseWords);

/** One focus of one athlete: what it means, how the numbers and the coach's own ratings went. */
export default function FocusPage({ params }: PageProps) {
  const view = useResource<FocusView>(coachPaths.focus(params.athlete_id, params.focus));
  return (
    <ResourceView resource={view} name={t('the_focus')}>
      {(value) => (
        <>
          <p class="trail">
            <a href={`#/athletes/${params.athlete_id}`}>{value.name}</a>
          </p>
          <h1>{value.focus.name}</h1>
          <p class="lead">{value.focus.meaning}</p>
          {value.periods.length > 0 && (
            <p>
              {t('worked_on', {
                periods: value.periods
                  .map((period) =>
                    t('to', {
                      from_date: formatShortDate(period.from_date),
                      to_date: period.to_date ? formatShortDate(period.to_date) : t('now'),
                      note: period.note ? ` (${period.note})` : '',
                    }),
                  )
                  .join(', '),
              })}
            </p>
          )}
          {value.condition && <p class="quiet">{t('at_2', { condition: describeCondition(value.condition) })}</p>}
          {value.courses.length === 0 && (
            <section class="empty">
              <h2>{t('no_number_yet')}</h2>
              <p>
                {t('this_focus_rests_on_none', {
                  quantities: value.focus.quantities
                    .map(
                      ({ quantity, mounting }) =>
                        `${displayQuantity(quantity).label}${mounting ? ` (${sensorOn(mounting)})` : ''}`,
                    )
                    .join(', '),
                  name: value.name,
                })}
              </p>
            </section>
          )}
          {value.courses.map((course) => (
            <CourseSection key={course.quantity} course={course} />
          ))}
          <Ratings view={value} />
          <FocusText focus={value.focus} />
          <CautionList cautions={value.cautions} />
        </>
      )}
    </ResourceView>
  );
}

function Ratings({ view }: { view: FocusView }) {
  return (
    <section class="sheet focus-eye">
      <h2>{t('your_eye')}</h2>
      {view.ratings.length === 0 ? (
        <p>{t('no_rating_yet_on_the')}</p>
      ) : (
        <ul>
          {view.ratings.slice(0, 30).map((rating) => (
            <li key={rating.repetition_id}>
              <a href={`#/repetitions/${rating.repetition_id}`}>
                {t('repetition', { date: formatShortDate(rating.date), order_number: rating.order_number })}
              </a>
              : {rating.rating === null ? '' : t('of_5', { rating: rating.rating })}
              {rating.note && ` “${rating.note}”`}
              {rating.has_photo && (
                <img
                  class="rating-photo"
                  loading="lazy"
                  src={`/api/coach/repetitions/${rating.repetition_id}/ratings/${rating.aspect}/photo`}
                  alt={t('photograph_of_repetition', {
                    date: formatShortDate(rating.date),
                    order_number: rating.order_number,
                  })}
                />
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
