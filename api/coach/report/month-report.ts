import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { QuantityCourse } from '../../../shared/schemas/coach/course-view.ts';
import type { Picture, Report } from '../../../shared/schemas/coach/report.ts';
import type { SprintSeries } from '../../../shared/schemas/coach/sprint-test-view.ts';
import { getAthlete } from '../../store/athletes.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import type { Store } from '../../store/store.ts';
import { addDays, dateOfDay, dayNumber } from '../../../shared/dates.ts';
import { blocksOf } from '../judgement/course-view.ts';
import { focusNow, focusOn } from '../judgement/focus-on.ts';
import { quantityCourse } from '../judgement/quantity-course.ts';
import { asCondition, chooseCondition, runConditions } from '../judgement/run-conditions.ts';
import { valueHistory } from '../judgement/value-history.ts';
import { isGrowing } from '../../measuring/growth.ts';
import { returningSince } from '../returning.ts';
import { sprintTestView } from '../tests/sprint-test-view.ts';
import { cautionsFor } from '../words/cautions.ts';
import { focusSentence } from '../words/focus-sentence.ts';
import { labelOf, numberText } from '../words/quantity-words.ts';
import { drawPlot } from './draw-plot.ts';
import { axisLabel, decimalsOf, type LengthUnit, leastSpan, totalText } from './report-words.ts';

/** Weeks shown before the month's end: a month alone shows no trend. */
const SHOWN_DAYS = 12 * 7;

/**
 * One page about one athlete's month.
 * @param when the month as yyyy-mm, and the day it is looked at
 * @throws FaultError REPORT_EMPTY when nothing was measured or tested up to its end
 */
export function monthReport(
  store: Store,
  athlete_id: number,
  { month, today }: { month: string; today: string },
  unit: LengthUnit,
  words: JudgementWords = JUDGEMENT_EN,
): Report {
  const say = words.coach.reporting;
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
    const block = blocksOf(store, athlete_id, [quantity], condition, end, unit, words).get(quantity) ?? null;
    return history.length > 0
      ? quantityCourse(quantity, history, { date: end, growing, block, length: unit, words })
      : null;
  };
  const first = course(focus?.quantity ?? 'contact_time_ms') ?? course('contact_time_ms');
  const second = course(first?.quantity === 'contact_time_ms' ? 'speed_max_mps' : 'contact_time_ms');
  const series = sprintTestView(store, athlete_id, end, words).series.find((entry) =>
    entry.tests.some((test) => test.date <= end),
  );
  if (!first && !series) {
    throw new FaultError(fault('REPORT_EMPTY.month', { athlete: athlete.name, date: end }, { athlete_id }));
  }
  return {
    kind: 'month',
    name: athlete.name,
    title: words.month(month),
    date: end,
    sentences: [
      ranSentence(store, athlete_id, { month, end }, unit, words),
      series?.since_last
        ? say('test_over', { distance: series.title.split(', ')[0], sentence: series.since_last.sentence })
        : '',
      first?.sentence ?? '',
      second?.sentence ?? '',
      focus ? focusSentence(focusNow(focus, words), words) : '',
    ].filter(Boolean),
    pictures: [
      first && coursePicture(first, words),
      series && testPicture(series, end, words),
      second && coursePicture(second, words),
    ].filter((picture): picture is Picture => Boolean(picture)),
    cautions: cautionsFor([{ returning: returningSince(store, athlete_id) !== null }], words),
    note: null,
  };
}

function nextMonth(month: string): string {
  const [year, number] = month.split('-').map(Number);
  return number === 12 ? `${year + 1}-01` : `${year}-${String(number + 1).padStart(2, '0')}`;
}

function ranSentence(
  store: Store,
  athlete_id: number,
  { month, end }: { month: string; end: string },
  unit: LengthUnit,
  words: JudgementWords,
): string {
  const lines = listRepetitions(store, { athlete_id, from: `${month}-01`, to: end }).filter(
    (line) => line.state !== 'planned',
  );
  const sessions = new Set(lines.map((line) => line.session_id)).size;
  const total = lines.reduce((sum, line) => sum + (line.course_distance_m ?? 0), 0);
  if (lines.length === 0) return words.coach.reporting('no_repetition_this_month');
  return words.coach.reporting('ran_this_month', { sessions, n: lines.length, total: totalText(total, unit) });
}

function dateTicks(dates: readonly string[], words: JudgementWords): { x: number; text: string }[] {
  const [first, last] = [dayNumber(dates[0]), dayNumber(dates.at(-1)!)];
  const count = Math.max(1, Math.min(5, last - first));
  const days = Array.from({ length: count + 1 }, (_, i) => Math.round(first + ((last - first) * i) / count));
  return [...new Set(days)].map((day) => {
    const date = dateOfDay(day);
    const [number, month] = words.date(date, date).split(' ');
    return { x: day, text: `${number} ${month.slice(0, 3)}` };
  });
}

function coursePicture(course: QuantityCourse, words: JudgementWords): Picture {
  const say = words.coach.reporting;
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
    title: say('by_session', { label: labelOf(quantity, words) }),
    description: course.sentence,
    x_label: say('session_axis', { block: block !== null }),
    y_label: axisLabel(quantity, words),
    words,
    y_decimals: decimalsOf(quantity),
    y_least: leastSpan(quantity, sessions[0].value),
    x_ticks: dateTicks(
      sessions.map((session) => session.date),
      words,
    ),
    bands: normal ? [{ points: days.map((x) => ({ x, low: normal.low, high: normal.high })) }] : [],
    series: [
      {
        points: repetitions.map((entry) => ({ x: dayNumber(entry.date), y: entry.value })),
        form: 'ring',
        tone: 'earlier',
        joined: false,
      },
      ...(block ? [level(block.before, say('before')), level(block.now, say('now'))] : []),
      {
        points: sessions.map((session) => ({ x: dayNumber(session.date), y: session.value })),
        form: 'diamond',
        tone: 'ink',
        joined: false,
      },
    ],
  });
}

function testPicture(series: SprintSeries, end: string, words: JudgementWords): Picture {
  const say = words.coach.reporting;
  const tests = series.tests.filter((test) => test.date <= end && series.best_ids.includes(test.sprint_test_id));
  return drawPlot({
    title: say('test_picture', { title: series.title }),
    description: tests.map((test) => `${test.date}: ${numberText(test.time_s, 2, words)} s`).join(', '),
    x_label: say('test_axis'),
    y_label: say('time_axis'),
    words,
    y_decimals: 1,
    y_least: 0.4,
    x_ticks: dateTicks(
      tests.map((test) => test.date),
      words,
    ),
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
