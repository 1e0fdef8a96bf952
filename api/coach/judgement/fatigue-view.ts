import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { sessionDropOff } from '../../../dsp/athlete/drop-off.ts';
import type { FatigueLine, FatigueView } from '../../../shared/schemas/coach/course-view.ts';
import type { StopRule } from '../../../shared/schemas/coach/coach-settings.ts';
import { getSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import { cautionsFor } from '../words/cautions.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { fatigueSentence } from '../words/course-sentences.ts';

/** Quantities in which tiring shows, and which way is worse. Common practice. */
const TIRING: Record<string, 'more' | 'less'> = { speed_max_mps: 'less', contact_time_ms: 'more' };
/** Without a limit of the coach's own nothing is ever called a stop. */
const NEVER_PERCENT = 1000;

interface Row {
  athlete_id: number;
  name: string;
  distance_m: number | null;
  effort_percent: number | null;
  repetition_id: number;
  order_number: number;
  quantity: string;
  value: number;
}

/** How each athlete's like repetitions drift through a session. */
export function fatigueView(store: Store, session_id: number, words: JudgementWords = JUDGEMENT_EN): FatigueView {
  const session = getSession(store, session_id);
  const { stop_rule } = readCoachSettings(store);
  const rows = store
    .prepare(
      `SELECT r.athlete_id, a.name, ROUND(r.course_distance_m, 1) AS distance_m, ROUND(r.effort_percent / 5) * 5 AS effort_percent,
              r.repetition_id, r.order_number, v.quantity, v.value
       FROM repetitions r JOIN athletes a ON a.athlete_id = r.athlete_id
       JOIN repetition_values v ON v.analysis_id = r.analysis_id AND v.quantity IN ('contact_time_ms', 'speed_max_mps')
       WHERE r.session_id = ? AND r.deleted_utc IS NULL AND a.deleted_utc IS NULL
       ORDER BY a.name, r.athlete_id, v.quantity, r.order_number, r.repetition_id`,
    )
    .all(session_id) as Row[];
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const key = [row.athlete_id, row.quantity, row.distance_m, row.effort_percent].join('|');
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return {
    session_id,
    session_date: session.session_date,
    title: session.title,
    limit_percent: stop_rule.speed_loss_percent,
    lines: [...groups.values()]
      .filter((group) => group.length >= 2)
      .map((group) => fatigueLine(group, stop_rule, words)),
    cautions: cautionsFor([], words),
  };
}

function fatigueLine(group: readonly Row[], rule: StopRule, words: JudgementWords): FatigueLine {
  const { athlete_id, name, quantity, distance_m, effort_percent } = group[0];
  const drop = dropOf(
    quantity,
    group.map((row) => row.value),
    rule,
  );
  const line = {
    athlete_id,
    name,
    quantity,
    distance_m,
    effort_percent,
    repetitions: group.map(({ repetition_id, order_number, value }) => ({ repetition_id, order_number, value })),
    fresh: drop?.fresh ?? null,
    last: drop?.last ?? null,
    change_percent: drop?.change_percent ?? null,
    slope: drop?.slope ?? null,
    stop: drop?.stop ?? false,
  };
  return { ...line, sentence: fatigueSentence(line, words) };
}

/**
 * Drop-off of one quantity by the coach's rule. Only a loss of speed can meet the rule here: contact time has the rule of
 * repetitions in a row beyond normal.
 */
export function dropOf(quantity: string, values: readonly number[], rule: StopRule) {
  const limit = quantity === 'speed_max_mps' ? rule.speed_loss_percent : null;
  return sessionDropOff(values, {
    limit_percent: limit ?? NEVER_PERCENT,
    in_a_row: 1,
    worse: TIRING[quantity] ?? 'more',
  });
}
