import { MOUNTING_PLACES } from '../../../../shared/mountings.ts';
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

/** One focus of one athlete: what it means, how the numbers and the coach's own ratings went. */
export default function FocusPage({ params }: PageProps) {
  const view = useResource<FocusView>(coachPaths.focus(params.athlete_id, params.focus));
  return (
    <ResourceView resource={view} name="the focus">
      {(value) => (
        <>
          <p class="trail">
            <a href={`#/athletes/${params.athlete_id}`}>{value.name}</a>
          </p>
          <h1>{value.focus.name}</h1>
          <p class="lead">{value.focus.meaning}</p>
          {value.periods.length > 0 && (
            <p>
              Worked on{' '}
              {value.periods
                .map(
                  (period) =>
                    `${formatShortDate(period.from_date)} to ${period.to_date ? formatShortDate(period.to_date) : 'now'}${period.note ? ` (${period.note})` : ''}`,
                )
                .join(', ')}
              .
            </p>
          )}
          {value.condition && <p class="quiet">At {describeCondition(value.condition)}.</p>}
          {value.courses.length === 0 && (
            <section class="empty">
              <h2>No number yet</h2>
              <p>
                This focus rests on{' '}
                {value.focus.quantities
                  .map(
                    ({ quantity, mounting }) =>
                      `${displayQuantity(quantity).label}${mounting ? ` (sensor on the ${MOUNTING_PLACES[mounting].place})` : ''}`,
                  )
                  .join(', ')}
                . None of them was measured with {value.name} yet.
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
    <section class="sheet">
      <h2>Your eye</h2>
      {view.ratings.length === 0 ? (
        <p>
          No rating yet. On the field screen, rate a repetition 1 to 5 and add a note or a photograph; they are kept
          with it.
        </p>
      ) : (
        <ul>
          {view.ratings.slice(0, 30).map((rating) => (
            <li key={rating.repetition_id}>
              <a href={`#/repetitions/${rating.repetition_id}`}>
                {formatShortDate(rating.date)}, repetition {rating.order_number}
              </a>
              : {rating.rating === null ? '' : `${rating.rating} of 5`}
              {rating.note && ` “${rating.note}”`}
              {rating.has_photo && (
                <img
                  class="rating-photo"
                  loading="lazy"
                  src={`/api/coach/repetitions/${rating.repetition_id}/ratings/${rating.aspect}/photo`}
                  alt={`Photograph of ${formatShortDate(rating.date)}, repetition ${rating.order_number}`}
                />
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
