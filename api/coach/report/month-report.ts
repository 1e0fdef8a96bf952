import type { QuantityCourse } from '../../../shared/schemas/coach/course-view.ts';
import type { Picture, Report } from '../../../shared/schemas/coach/report.ts';
import type { SprintSeries } from '../../../shared/schemas/coach/sprint-test-view.ts';
import { getAthlete } from '../../store/athletes.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { dateOfDay, dayNumber, addDays } from '../../../shared/dates.ts';
import { plainDate } from '../words/plain-date.ts';
import { findFocus } from '../focuses.ts';
import { focusOn } from '../judgement/judge-stored-repetition.ts';
import { quantityCourse } from '../judgement/quantity-course.ts';
import { asCondition, chooseCondition, runConditions } from '../judgement/run-conditions.ts';
import { valueHistory } from '../judgement/value-history.ts';
import { isGrowing } from '../../measuring/growth.ts';
import { sprintTestView } from '../tests/sprint-test-view.ts';
import { CAUTIONS } from '../words/cautions.ts';
import { drawPlot } from './draw-plot.ts';
import { axisLabel, decimalsOf, type LengthUnit, leastSpan, nothingToReport, totalText } from './report-words.ts';

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
    return history.length > 0 ? quantityCourse(quantity, history, end, growing, unit) : null;
  };
  const first = course(focus?.quantity ?? 'contact_time_ms') ?? course('contact_time_ms');
  const second = course(first?.quantity === 'contact_time_ms' ? 'speed_max_mps' : 'contact_time_ms');
  const series = sprintTestView(store, athlete_id, end).series.find((entry) =>
    entry.tests.some((test) => test.date <= end),
  );
  if (!first && !series) {
    throw nothingToReport(`Nothing was measured or tested with ${athlete.name} up to ${plainDate(end, '')}.`, {
      athlete_id,
    });
  }
  const cue = focus && findFocus(focus.focus);
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
      cue ? `You work on: ${cue.name.toLowerCase()}. ${cue.meaning}` : '',
    ].filter(Boolean),
    pictures: [
      first && coursePicture(first),
      series && testPicture(series, end),
      second && coursePicture(second),
    ].filter((picture): picture is Picture => Boolean(picture)),
    cautions: [...CAUTIONS],
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
  return `You came to ${sessions} ${sessions === 1 ? 'session' : 'sessions'} and ran ${lines.length} measured repetitions, ${totalText(total, unit)} in all.`;
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
  const { quantity, sessions, repetitions, trend } = course;
  return drawPlot({
    title: `${axisLabel(quantity).replace(/ \(.*/, '')}, session by session`,
    description: course.sentence,
    x_label: 'session; line: the way it goes, grey: how sure that is',
    y_label: axisLabel(quantity),
    y_decimals: decimalsOf(quantity),
    y_least: leastSpan(quantity, sessions[0].value),
    x_ticks: dateTicks(sessions.map((session) => session.date)),
    bands: trend
      ? [{ points: trend.band.map((entry) => ({ x: dayNumber(entry.date), low: entry.low, high: entry.high })) }]
      : [],
    series: [
      {
        points: repetitions.map((entry) => ({ x: dayNumber(entry.date), y: entry.value })),
        form: 'ring',
        tone: 'earlier',
        joined: false,
      },
      {
        points: (trend?.band ?? []).map((entry) => ({ x: dayNumber(entry.date), y: entry.value })),
        form: 'none',
        tone: 'left',
        joined: true,
      },
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
    x_label: 'test; grey: what the method cannot tell apart',
    y_label: 'time (s)',
    y_decimals: 1,
    y_least: 0.4,
    x_ticks: dateTicks(tests.map((test) => test.date)),
    bands: tests.map((test) => ({
      points: [-1, 1].map((shift) => ({
        x: dayNumber(test.date) + shift,
        low: test.time_s - series.error_s,
        high: test.time_s + series.error_s,
      })),
    })),
    series: [
      {
        points: tests.map((test) => ({ x: dayNumber(test.date), y: test.time_s })),
        form: 'diamond',
        tone: 'ink',
        joined: true,
      },
    ],
  });
}
