import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { AthleteNow, NumberNow, SessionOfAthlete } from '../../../shared/schemas/coach/standing.ts';
import type { RunCondition } from '../../../shared/schemas/coach/course-view.ts';
import { getAthlete } from '../../store/athletes.ts';
import { getRepetitionLine, listRepetitions } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import { coachQuery } from '../../store/coach-tables.ts';
import type { Store } from '../../store/store.ts';
import { addDays } from '../../../shared/dates.ts';
import { isGrowing } from '../../measuring/growth.ts';
import { blocksOf, SHOWN_DAYS } from '../judgement/course-view.ts';
import { focusOn } from '../judgement/focus-on.ts';
import { judgeAll } from '../judgement/judge-stored-repetition.ts';
import { quantityCourse } from '../judgement/quantity-course.ts';
import { asCondition, chooseCondition, runConditions } from '../judgement/run-conditions.ts';
import { valueHistories } from '../judgement/value-history.ts';
import { oneSentence } from '../judgement/verdict.ts';
import { returningSince } from '../returning.ts';
import { sprintTestStanding } from '../tests/sprint-test-view.ts';
import { cautionsFor } from '../words/cautions.ts';
import { againstNormal } from '../words/now-sentences.ts';
import type { LengthUnit } from '../words/quantity-words.ts';
import { focusStanding } from './focus-standing.ts';
import { lastTest } from './last-test.ts';
import { judgeSession, type Reader } from './session-verdicts.ts';

/** Numbers that stand beside that of the focus, the first measured ones of these. */
const BESIDE_FOCUS = ['speed_max_mps', 'contact_time_ms', 'step_rate_hz', 'step_length_m'];
const NUMBERS = 3;
const SESSIONS = 5;

/**
 * How one athlete stands: what they work on, three numbers against normal and since the block began, tests, what is next.
 * The same judgements, levels and sentences as on the other pages.
 */
export function athleteNow(
  store: Store,
  athlete_id: number,
  today: string,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): AthleteNow {
  const { name } = getAthlete(store, athlete_id);
  const focus = focusOn(store, athlete_id, today);
  const returning = returningSince(store, athlete_id);
  const condition = chooseCondition(runConditions(store, athlete_id));
  const wanted = [...new Set([...(focus?.quantity ? [focus.quantity] : []), ...BESIDE_FOCUS])];
  const { series, next_test } = sprintTestStanding(store, athlete_id, today, words);
  return {
    athlete_id,
    name,
    focus: focus && focusStanding(focus, today, words),
    returning,
    condition,
    numbers: condition ? numbersOf(store, athlete_id, condition, wanted, today, { length, words }) : [],
    last_test: lastTest(series),
    next_test,
    next_session: nextSession(store, athlete_id, today),
    sessions: latestSessions(store, athlete_id, { length, words }),
    cautions: cautionsFor([{ returning: returning !== null }], words),
  };
}

function numbersOf(
  store: Store,
  athlete_id: number,
  condition: RunCondition,
  wanted: readonly string[],
  today: string,
  { length, words }: Reader,
): NumberNow[] {
  const limits = { from: addDays(today, -SHOWN_DAYS), to: today };
  const histories = valueHistories(store, athlete_id, wanted, asCondition(condition), limits);
  const shown = wanted.filter((quantity) => histories.has(quantity)).slice(0, NUMBERS);
  const blocks = blocksOf(store, athlete_id, shown, condition, today, length, words);
  const growing = isGrowing(store, athlete_id, today);
  return shown.flatMap((quantity) => {
    const history = histories.get(quantity)!;
    const last = history.at(-1)!;
    const line = getRepetitionLine(store, last.repetition_id);
    const { surface } = getSession(store, last.session_id, true);
    const [judgement] = judgeAll(store, line, surface, [quantity], { length, words });
    const block = blocks.get(quantity) ?? null;
    const course = quantityCourse(quantity, history, { date: today, growing, block, length, words });
    if (!judgement) return [];
    const against_normal = againstNormal(judgement, length, words);
    return [{ quantity, judgement, date: last.session_date, against_normal, course }];
  });
}

/** The first session from today on whose plan names the athlete and in which they have not run yet. */
function nextSession(store: Store, athlete_id: number, today: string): AthleteNow['next_session'] {
  return (
    store.first(
      coachQuery(store)
        .selectFrom('session_athletes')
        .innerJoin('sessions', 'sessions.session_id', 'session_athletes.session_id')
        .select(['sessions.session_id', 'session_date', 'title'])
        .where('session_athletes.athlete_id', '=', athlete_id)
        .where('session_date', '>=', today)
        .where('sessions.deleted_utc', 'is', null)
        .where(({ not, exists, selectFrom }) =>
          not(
            exists(
              selectFrom('repetitions')
                .select('repetitions.repetition_id')
                .whereRef('repetitions.session_id', '=', 'sessions.session_id')
                .where('repetitions.athlete_id', '=', athlete_id)
                .where('repetitions.deleted_utc', 'is', null),
            ),
          ),
        )
        .orderBy('session_date')
        .orderBy('sessions.session_id')
        .limit(1),
    ) ?? null
  );
}

function latestSessions(store: Store, athlete_id: number, reader: Reader): SessionOfAthlete[] {
  const rows = store
    .prepare(
      `SELECT DISTINCT s.session_id, s.session_date FROM repetitions r JOIN sessions s ON s.session_id = r.session_id
       WHERE r.athlete_id = ? AND r.state != 'planned' AND r.deleted_utc IS NULL AND s.deleted_utc IS NULL
       ORDER BY s.session_date DESC, s.session_id DESC LIMIT ?`,
    )
    .all(athlete_id, SESSIONS) as { session_id: number }[];
  return rows.map(({ session_id }) => {
    const session = getSession(store, session_id);
    const own = listRepetitions(store, { session_id, athlete_id }).filter((line) => line.state !== 'planned');
    const { verdict } = judgeSession(store, athlete_id, session, own, reader);
    return {
      session_id,
      session_date: session.session_date,
      title: session.title,
      repetitions: own.length,
      verdict,
      sentence: oneSentence(verdict),
    };
  });
}
