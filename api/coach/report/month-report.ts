import { FaultError, fault } from '../../../shared/fault.ts';
import type { QuantityCourse } from '../../../shared/schemas/coach/course-view.ts';
import type { Picture, Report } from '../../../shared/schemas/coach/report.ts';
import type { SprintSeries } from '../../../shared/schemas/coach/sprint-test-view.ts';
import { getAthlete } from '../../store/athletes.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { addDays, dateOfDay, dayNumber } from '../../../shared/dates.ts';
import { plainDate } from '../words/plain-date.ts';
import { blocksOf } from '../judgement/course-view.ts';
import { focusOn } from '../judgement/focus-on.ts';
import { quantityCourse } from '../judgement/quantity-course.ts';
import { asCondition, chooseCondition, runConditions } from '../judgement/run-conditions.ts';
import { valueHistory } from '../judgement/value-history.ts';
import { isGrowing } from '../../measuring/growth.ts';
import { returningSince } from '../returning.ts';
import { sprintTestView } from '../tests/sprint-test-view.ts';
import { cautionsFor } from '../words/cautions.ts';
import { focusSentence } from '../words/focus-sentence.ts';
import { drawPlot } from './draw-plot.ts';
import { axisLabel, decimalsOf, type LengthUnit, leastSpan, totalText } from './report-words.ts';

/** Weeks shown before the month's end: a month alone shows no trend. */
const SHOWN_DAYS = 12 * 7;
const MONTHS = 'January February March April May June July August September October November December'.split(' ');

/**
 * One page about one athlete's month.
 * @param month yyyy-mm
 * @throws FaultError REPORT_EMPTY when nothing was measured or tested up to its end
 */
export function monthReport(store: Store, athlete_id: number, month: string, today: string, unit: LengthUnit): Report {
  const athlete = getAthlete(store, athlete_id);
  const end = [addDays(`${nextMonth(month)}-01`, -1), today].sort()[0];
  const focus = focusOn(store, athlete_id, end);
  const condition = chooseCondition(runConditions(store, athlete_id));
  const growing = isGrowing(store, athlete_id, end);
  const course = (quantity: string): QuantityCourse | null => {
    if (!condition) return null;
    const history = valueHistory(store, athlete_id, quantity, asCondition(condition), {
      from: addDays(end, -SHOWN_DAYS),
      to: end,
    });
    const block = blocksOf(store, athlete_id, [quantity], condition, end, unit).get(quantity) ?? null;
    return history.length > 0 ? quantityCourse(quantity, history, { date: end, growing, block, length: unit }) : null;
  };
  const first = course(focus?.quantity ?? 'contact_time_ms') ?? course('contact_time_ms');
  const second = course(first?.quantity === 'contact_time_ms' ? 'speed_max_mps' : 'contact_time_ms');
  const series = sprintTestView(store, athlete_id, end).series.find((entry) =>
    entry.tests.some((test) => test.date <= end),
  );
  if (!first && !series) {
    throw new FaultError(fault('REPORT_EMPTY.month', { athlete: athlete.name, date: end }, { athlete_id }));
  }
  return {
    kind: 'month',
    name: athlete.name,
    title: `${MONTHS[Number(month.slice(5)) - 1]} ${month.slice(0, 4)}`,
    date: end,
    sentences: [
      ranSentence(store, athlete_id, month, end, unit),
      series?.since_last ? `Sprint test over ${series.title.split(',')[0]}: ${series.since_last.sentence}` : '',
      first?.sentence ?? '',
      second?.sentence ?? '',
      focus ? focusSentence(focus) : '',
    ].filter(Boolean),
    pictures: [
      first && coursePicture(first),
      series && testPicture(series, end),
      second && coursePicture(second),
    ].filter((picture): picture is Picture => Boolean(picture)),
    cautions: cautionsFor([{ returning: returningSince(store, athlete_id) !== null }]),
    note: null,
  };
}

function nextMonth(month: string): string {
  const [year, number] = month.split('-').map(Number);
  return number === 12 ? `${year + 1}-01` : `${year}-${String(number + 1).padStart(2, '0')}`;
}

function ranSentence(store: Store, athlete_id: number, month: string, end: string, unit: LengthUnit): string {
  const lines = listRepetitions(store, { athlete_id, from: `${month}-01`, to: end }).filter(
    (line) => line.state !== 'planned',
  );
  const sessions = new Set(lines.map((line) => line.session_id)).size;
  const total = lines.reduce((sum, line) => sum + (line.course_distance_m ?? 0), 0);
  if (lines.length === 0) return 'No repetition was measured this month.';
  return `${sessions} ${sessions === 1 ? 'session' : 'sessions'} with ${lines.length} measured ${lines.length === 1 ? 'repetition' : 'repetitions'}, ${totalText(total, unit)} in all.`;
}

function dateTicks(dates: readonly string[]): { x: number; text: string }[] {
  const [first, last] = [dayNumber(dates[0]), dayNumber(dates.at(-1)!)];
  const count = Math.max(1, Math.min(5, last - first));
  const days = Array.from({ length: count + 1 }, (_, i) => Math.round(first + ((last - first) * i) / count));
  return [...new Set(days)].map((day) => {
    const [number, month] = plainDate(dateOfDay(day)).split(' ');
    return { x: day, text: `${number} ${month.slice(0, 3)}` };
  });
}

function coursePicture(course: QuantityCourse): Picture {
  const { quantity, sessions, repetitions, normal, block } = course;
  const days = [dayNumber(sessions[0].date), dayNumber(sessions.at(-1)!.date)];
  const level = ({ value, first_date, last_date }: NonNullable<QuantityCourse['block']>['before'], name: string) => ({
    points: [dayNumber(first_date), dayNumber(last_date)].map((x) => ({ x, y: value })),
    form: 'none' as const,
    tone: 'left' as const,
    joined: true,
    name,
  });
  return drawPlot({
    title: `${axisLabel(quantity).replace(/ \(.*/, '')}, session by session`,
    description: course.sentence,
    x_label: `diamonds: sessions; grey: normal now${block ? '; lines: before and now' : ''}`,
    y_label: axisLabel(quantity),
    y_decimals: decimalsOf(quantity),
    y_least: leastSpan(quantity, sessions[0].value),
    x_ticks: dateTicks(sessions.map((session) => session.date)),
    bands: normal ? [{ points: days.map((x) => ({ x, low: normal.low, high: normal.high })) }] : [],
    series: [
      {
        points: repetitions.map((entry) => ({ x: dayNumber(entry.date), y: entry.value })),
        form: 'ring',
        tone: 'earlier',
        joined: false,
      },
      ...(block ? [level(block.before, 'before'), level(block.now, 'now')] : []),
      {
        points: sessions.map((session) => ({ x: dayNumber(session.date), y: session.value })),
        form: 'diamond',
        tone: 'ink',
        joined: false,
      },
    ],
  });
}

function testPicture(series: SprintSeries, end: string): Picture {
  const tests = series.tests.filter((test) => test.date <= end && series.best_ids.includes(test.sprint_test_id));
  return drawPlot({
    title: `Sprint test: ${series.title}`,
    description: tests.map((test) => `${test.date}: ${test.time_s.toFixed(2)} s`).join(', '),
    x_label: 'test; upright lines: what the method cannot tell apart',
    y_label: 'time (s)',
    y_decimals: 1,
    y_least: 0.4,
    x_ticks: dateTicks(tests.map((test) => test.date)),
    series: [
      ...tests.map((test) => ({
        points: [-1, 1].map((sign) => ({ x: dayNumber(test.date), y: test.time_s + sign * series.error_s })),
        form: 'none' as const,
        tone: 'earlier' as const,
        joined: true,
      })),
      {
        points: tests.map((test) => ({ x: dayNumber(test.date), y: test.time_s })),
        form: 'diamond',
        tone: 'ink',
        joined: true,
      },
    ],
  });
}
