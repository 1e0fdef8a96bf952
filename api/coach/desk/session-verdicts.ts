import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { MarkedValue } from '../judgement/judge.ts';
import type { AthleteSession, RepetitionMark, SessionVerdicts } from '../../../shared/schemas/coach/standing.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { Session } from '../../../shared/schemas/session.ts';
import { getAthlete } from '../../store/athletes.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import { type JudgedRepetition, markEach, judgeStoredRepetition } from '../judgement/judge-stored-repetition.ts';
import { oneSentence } from '../judgement/verdict.ts';
import { runningOrder } from '../plans/session-plans.ts';
import { cautionsFor } from '../words/cautions.ts';
import type { LengthUnit } from '../words/quantity-words.ts';

/** How the sentences are wanted. */
export interface Reader {
  length: LengthUnit;
  words: JudgementWords;
}

/** A session by athlete: one verdict each, and a mark for every repetition. */
export function sessionVerdicts(
  store: Store,
  session_id: number,
  length: LengthUnit = 'm',
  words: JudgementWords = JUDGEMENT_EN,
): SessionVerdicts {
  const session = getSession(store, session_id);
  const ran = listRepetitions(store, { session_id }).filter((line) => line.state !== 'planned');
  const athletes = runningOrder(store, session_id).flatMap((athlete_id) => {
    const own = ran.filter((line) => line.athlete_id === athlete_id);
    return own.length === 0 ? [] : [athleteSession(store, athlete_id, session, own, { length, words })];
  });
  return { session_id, athletes, cautions: cautionsFor(athletes, words) };
}

/**
 * What a session's verdict is made of: the last repetition of the hardest effort that has a result, else the last one. Easy
 * runs at the end are no word on a day of full speed.
 */
export function leadingRepetition(own: readonly RepetitionLine[]): RepetitionLine | null {
  const analysed = own.filter((line) => line.state === 'analysed');
  const hardest = Math.max(...analysed.map((line) => line.effort_percent ?? 0));
  return analysed.filter((line) => (line.effort_percent ?? 0) === hardest).at(-1) ?? own.at(-1) ?? null;
}

/** One athlete's session judged by its leading repetition. */
export function judgeSession(
  store: Store,
  athlete_id: number,
  session: Pick<Session, 'session_date' | 'surface'>,
  own: readonly RepetitionLine[],
  reader: Reader,
): JudgedRepetition {
  return judgeStoredRepetition(store, athlete_id, session, leadingRepetition(own), reader);
}

function athleteSession(
  store: Store,
  athlete_id: number,
  session: Session,
  own: readonly RepetitionLine[],
  reader: Reader,
): AthleteSession {
  const { focus, returning, verdict } = judgeSession(store, athlete_id, session, own, reader);
  const analysed = verdict.quantity === null ? [] : own.filter((line) => line.state === 'analysed');
  const marked = markEach(store, analysed, session.surface, verdict.quantity ?? '');
  return {
    athlete_id,
    name: getAthlete(store, athlete_id).name,
    focus,
    returning,
    verdict,
    sentence: oneSentence(verdict),
    marks: own.map((line) => markOf(line, marked.get(line.repetition_id))),
  };
}

/** One repetition with what was found of it. */
function markOf(line: RepetitionLine, mark: MarkedValue | undefined): RepetitionMark {
  return {
    repetition_id: line.repetition_id,
    order_number: line.order_number,
    course_distance_m: line.course_distance_m,
    course_time_s: line.course_time_s,
    effort_percent: line.effort_percent,
    speed_max_mps: line.figures?.speed_max_mps ?? null,
    judged: mark
      ? {
          value: mark.value,
          value_u: mark.value_u,
          kind: mark.kind,
          beyond: mark.beyond,
          wanted: mark.wanted,
          normal_low: mark.normal?.low ?? null,
          normal_high: mark.normal?.high ?? null,
        }
      : null,
  };
}
