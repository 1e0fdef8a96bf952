import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { courseWords } from '../../../../shared/messages/en/view/course.ts';
import type { QuantityCourse } from '../../../../shared/schemas/coach/course-view.ts';
import { formatShortDate } from '../../../app/format.ts';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { displayQuantity, showQuantity, showValue } from '../quantity-text.ts';
import { CoursePlot } from './course-plot.tsx';
import { Citation } from '../../../parts/citation.tsx';

const t = phrasesOf('course', courseWords);
const common = phrasesOf('common', commonWords);

/** One quantity over time: sentence, plot, sides, and the same numbers as a table. */
export function CourseSection({ course }: { course: QuantityCourse }) {
  const { quantity, sessions, normal, sides } = course;
  const { label, unit, definition } = displayQuantity(quantity);
  return (
    <section class="sheet">
      <h2>{label}</h2>
      <p class="headline">{course.sentence}</p>
      {sessions.length > 0 && <CoursePlot course={course} />}
      {normal && (
        <p>
          {t('normal_now_to', { low: showValue(quantity, normal.low), high: showQuantity(quantity, normal.high) })}
          {normal.provisional ? (
            <>
              {t('provisional_with_the_variation_published', { n: normal.n })}(
              <Citation>{normal.variation_source}</Citation>)
            </>
          ) : (
            t('repetitions_of_sessions', { n: normal.n, sessions: normal.sessions })
          )}
          {t('a_single_repetition_counts_as', { from: showQuantity(quantity, normal.flag_from) })}
          {normal.expired > 0 && t('older_repetitions_no_longer_count', { expired: normal.expired })}
        </p>
      )}
      {sides && (
        <p>
          <strong>{t('last_session_left_and_right')}</strong>
          {t('difference_95_from_to_variation', {
            sentence: sides.sentence,
            size: showQuantity(quantity, sides.difference),
            low: showValue(quantity, sides.low),
            high: showValue(quantity, sides.high),
            scatter: showQuantity(quantity, sides.within_side_sd),
          })}
        </p>
      )}
      <p class="quiet small">{definition}</p>
      <details class="more">
        <summary>{common('the_numbers')}</summary>
        <TableScroll label={t('by_session', { label })}>
          <table class="numbers">
            <caption class="visually-hidden">{t('by_session', { label })}</caption>
            <thead>
              <tr>
                <th scope="col">{common('replay_session')}</th>
                <th scope="col">
                  {label}
                  <span class="unit">{unit}</span>
                </th>
                <th scope="col">{common('left')}</th>
                <th scope="col">{common('right')}</th>
                <th scope="col">{common('repetitions_3')}</th>
              </tr>
            </thead>
            <tbody>
              {[...sessions].reverse().map((session) => (
                <tr key={session.session_id}>
                  <th scope="row">
                    <a href={`#/sessions/${session.session_id}`}>{formatShortDate(session.date)}</a>
                  </th>
                  <td>{showValue(quantity, session.value)}</td>
                  <td>{showValue(quantity, session.left)}</td>
                  <td>{showValue(quantity, session.right)}</td>
                  <td>{session.n}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </TableScroll>
      </details>
    </section>
  );
}
