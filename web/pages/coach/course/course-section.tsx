import type { QuantityCourse } from '../../../../shared/schemas/coach/course-view.ts';
import { formatShortDate } from '../../../app/format.ts';
import { TableScroll } from '../../../parts/table-scroll.tsx';
import { displayQuantity, showQuantity, showValue } from '../quantity-text.ts';
import { CoursePlot } from './course-plot.tsx';

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
          Normal now: {showValue(quantity, normal.low)} to {showQuantity(quantity, normal.high)}
          {normal.provisional
            ? `, provisional: ${normal.n} ${normal.n === 1 ? 'repetition' : 'repetitions'}, with the variation published for others (${normal.variation_source})`
            : ` (${normal.n} repetitions of ${normal.sessions} sessions)`}
          . A single repetition counts as different from {showQuantity(quantity, normal.flag_from)} off the middle.
          {normal.expired > 0 && ` ${normal.expired} older repetitions no longer count.`}
        </p>
      )}
      {sides && (
        <p>
          <strong>Last session, left and right:</strong> {sides.sentence} Difference{' '}
          {showQuantity(quantity, sides.difference)} (95 % from {showValue(quantity, sides.low)} to{' '}
          {showValue(quantity, sides.high)}), variation within one side {showQuantity(quantity, sides.within_side_sd)}.
        </p>
      )}
      <p class="quiet small">{definition}</p>
      <details class="more">
        <summary>The numbers</summary>
        <TableScroll label={`${label} by session`}>
          <table class="numbers">
            <caption class="visually-hidden">{label} by session</caption>
            <thead>
              <tr>
                <th scope="col">session</th>
                <th scope="col">
                  {label}
                  <span class="unit">{unit}</span>
                </th>
                <th scope="col">left</th>
                <th scope="col">right</th>
                <th scope="col">repetitions</th>
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
