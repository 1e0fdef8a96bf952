import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { Report } from '../../../shared/schemas/coach/report.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { getAthlete } from '../../store/athletes.ts';
import { listRepetitions } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import { fatigueView } from '../judgement/fatigue-view.ts';
import { type JudgedRepetition, judgeAll, judgeStoredRepetition } from '../judgement/judge-stored-repetition.ts';
import { oneSentence } from '../judgement/verdict.ts';
import { cautionsFor } from '../words/cautions.ts';
import { labelOf, numberText } from '../words/quantity-words.ts';
import { drawPlot } from './draw-plot.ts';
import { axisLabel, decimalsOf, distanceText, type LengthUnit, leastSpan, totalText } from './report-words.ts';

/** One page about one athlete's session. @throws FaultError REPORT_EMPTY when nothing of theirs was analysed in it */
export function sessionReport(
  store: Store,
  session_id: number,
  athlete_id: number,
  unit: LengthUnit,
  words: JudgementWords = JUDGEMENT_EN,
): Report {
  const say = words.coach.reporting;
  const session = getSession(store, session_id);
  const athlete = getAthlete(store, athlete_id);
  const repetitions = listRepetitions(store, { session_id, athlete_id }).filter((line) => line.analysis_id !== null);
  if (repetitions.length === 0) {
    throw new FaultError(fault('REPORT_EMPTY.session', { athlete: athlete.name }, { session_id, athlete_id }));
  }
  const judged = repetitions.map((repetition) => ({
    repetition,
    ...judgeStoredRepetition(store, athlete_id, session, repetition, { length: unit, words }),
  }));
  const last = judged.at(-1)!;
  const fatigue = fatigueView(store, session_id, words).lines.find(
    (line) => line.athlete_id === athlete_id && line.quantity === 'speed_max_mps' && line.fresh !== null,
  );
  const { focus } = last;
  const second = focus?.quantity && focus.quantity !== 'contact_time_ms' ? focus.quantity : 'speed_max_mps';
  const shown = ['contact_time_ms', second, second === 'speed_max_mps' ? 'step_rate_hz' : 'speed_max_mps'];
  return {
    kind: 'session',
    name: athlete.name,
    title: say('session_title', { title: session.title, date: words.date(session.session_date, '') }),
    date: session.session_date,
    sentences: [
      opening(repetitions, unit, words),
      say('last_repetition', { sentence: oneSentence(last.verdict) }),
      last.stop === '' ? '' : last.stop,
      last.returning ? '' : (fatigue?.sentence ?? ''),
      last.judgements.find((judgement) => judgement.quantity === 'contact_time_ms')?.side_sentence ?? '',
    ]
      .filter(Boolean)
      .slice(0, 5),
    pictures: shown.map((quantity) => throughSession(store, quantity, judged, session.surface, words)),
    cautions: cautionsFor([last], words),
    note: session.notes || null,
  };
}

function opening(repetitions: readonly RepetitionLine[], unit: LengthUnit, words: JudgementWords): string {
  const say = words.coach.reporting;
  const total = repetitions.reduce((sum, line) => sum + (line.course_distance_m ?? 0), 0);
  const times = repetitions.filter((line) => line.course_time_s !== null && (line.effort_percent ?? 0) >= 95);
  const best = [...times].sort((a, b) => a.course_time_s! - b.course_time_s!)[0];
  const fastest = best
    ? say('fastest', {
        course: best.course_distance_m === null ? null : distanceText(best.course_distance_m, unit, words),
        time: `${numberText(best.course_time_s!, 2, words)} s`,
      })
    : '';
  return `${say('measured', { n: repetitions.length, total: totalText(total, unit) })}${fastest}`;
}

type Judged = (Pick<JudgedRepetition, 'judgements'> & { repetition: RepetitionLine })[];

/** One quantity repetition by repetition, over what is normal at each one's own effort and course. */
function throughSession(store: Store, quantity: string, judged: Judged, surface: string | null, words: JudgementWords) {
  const say = words.coach.reporting;
  const values = judged.map(({ repetition, judgements }) => ({
    repetition,
    judgement:
      judgements.find((judgement) => judgement.quantity === quantity) ??
      judgeAll(store, repetition, surface, [quantity])[0],
  }));
  const first = values.find((entry) => entry.judgement)?.judgement?.value ?? 1;
  return drawPlot({
    title: say('by_repetition', { label: labelOf(quantity, words) }),
    description: values
      .map((entry) =>
        entry.judgement ? numberText(entry.judgement.value, decimalsOf(quantity), words) : say('not_measured'),
      )
      .join(', '),
    x_label: say('repetition_axis'),
    y_label: axisLabel(quantity, words),
    words,
    y_decimals: decimalsOf(quantity),
    y_least: leastSpan(quantity, first),
    x_ticks: values.map((entry, index) => ({
      x: index + 1,
      text:
        entry.repetition.effort_percent === null
          ? String(index + 1)
          : `${index + 1} (${entry.repetition.effort_percent} %)`,
    })),
    bands: values.flatMap((entry, index) => {
      const normal = entry.judgement?.normal;
      return normal
        ? [{ points: [-0.35, 0.35].map((shift) => ({ x: index + 1 + shift, low: normal.low, high: normal.high })) }]
        : [];
    }),
    series: [
      {
        points: values.map((entry, index) => ({
          x: index + 1,
          y: entry.judgement?.value ?? null,
          beyond: (entry.judgement?.beyond ?? null) !== null,
        })),
        form: 'diamond',
        tone: 'ink',
        joined: true,
      },
    ],
  });
}
