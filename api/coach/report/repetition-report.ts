import type { Contact } from '../../../shared/analysis.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import type { Picture, Report } from '../../../shared/schemas/coach/report.ts';
import type { RepetitionProfile } from '../../../shared/schemas/repetition.ts';
import { readProfile } from '../../measuring/read-profile.ts';
import { getAthlete } from '../../store/athletes.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import { readCoachSettings } from '../coach-settings.ts';
import { plainDate } from '../words/plain-date.ts';
import { findFocus } from '../focuses.ts';
import { focusOn, judgeStoredRepetition, quantitiesToJudge } from '../judgement/judge-stored-repetition.ts';
import { CAUTIONS } from '../words/cautions.ts';
import { drawPlot } from './draw-plot.ts';
import { drawStrips } from './draw-strips.ts';
import { axisLabel, distanceText, type LengthUnit, leastSpan, nothingToReport } from './report-words.ts';

/** One page about one repetition. @throws FaultError REPORT_EMPTY when it was not analysed */
export function repetitionReport(store: Store, repetition_id: number, unit: LengthUnit): Report {
  const repetition = getRepetitionLine(store, repetition_id);
  if (repetition.analysis_id === null) {
    throw nothingToReport(`Repetition ${repetition_id} has no result yet.`, { repetition_id });
  }
  const session = getSession(store, repetition.session_id);
  const athlete = getAthlete(store, repetition.athlete_id);
  const focus = focusOn(store, athlete.athlete_id, session.session_date);
  const { stop_rule } = readCoachSettings(store);
  const judgements = judgeStoredRepetition(
    store,
    repetition,
    session.surface,
    quantitiesToJudge(focus?.quantity ?? null),
    stop_rule.beyond_in_a_row,
    unit,
  );
  const profile = readProfile(store, repetition_id);
  const contact = judgements.find((judgement) => judgement.quantity === 'contact_time_ms');
  const where = repetition.course_distance_m === null ? 'your run' : distanceText(repetition.course_distance_m, unit);
  const opening =
    repetition.course_time_s === null
      ? `You ran ${where} in ${profile.contacts.length} steps.`
      : `You ran ${where} in ${repetition.course_time_s.toFixed(2)} s${repetition.timing_method === 'hand' ? ' by hand' : ''}, in ${profile.contacts.length} steps.`;
  const cue = focus && findFocus(focus.focus)?.coaches_try[0];
  return {
    kind: 'repetition',
    name: athlete.name,
    title: `Repetition ${repetition.order_number}, ${plainDate(session.session_date, '')}`,
    date: session.session_date,
    sentences: [
      opening,
      ...judgements.filter((j) => j.quantity !== 'speed_max_mps').map((j) => j.sentence),
      contact?.side_sentence ?? '',
      cue ? `You work on: ${focus.name.toLowerCase()}. Coaches often try this: ${lower(cue)}` : '',
    ]
      .filter(Boolean)
      .slice(0, 5),
    pictures: pictures(profile, judgements, unit),
    cautions: [...CAUTIONS],
    note: repetition.notes || null,
  };
}

function pictures(profile: RepetitionProfile, judgements: Judgement[], unit: LengthUnit): Picture[] {
  return [
    profilePlot(profile, 'contact_time_ms', 'How long each foot stayed down', unit),
    profilePlot(profile, profile.contacts.some((c) => c.speed_mps !== null) ? 'speed_mps' : 'step_rate_hz', '', unit),
    drawStrips('This repetition against your normal', judgements, unit),
  ];
}

/** One quantity step by step, left and right, over normal variation. */
function profilePlot(
  profile: RepetitionProfile,
  quantity: 'contact_time_ms' | 'speed_mps' | 'step_rate_hz',
  title: string,
  unit: LengthUnit,
): Picture {
  const { contacts, baseline } = profile;
  const byDistance = contacts.filter((contact) => contact.distance_m !== null).length > contacts.length / 2;
  const scale = byDistance ? 1 / (unit === 'm' ? 1 : unit === 'yd' ? 0.9144 : 0.3048) : 1;
  const at = (contact: Contact) => (byDistance ? (contact.distance_m ?? Number.NaN) * scale : contact.step);
  const band = baseline.quantities[quantity]?.[byDistance ? 'by_distance' : 'by_step'] ?? [];
  const own = contacts.filter((contact) => Number.isFinite(at(contact)));
  const last = Math.max(0, ...own.map(at));
  const side = (side: 'left' | 'right') =>
    own.filter((contact) => contact.side === side).map((contact) => ({ x: at(contact), y: contact[quantity] }));
  const values = own.map((contact) => contact[quantity]).filter((value) => value !== null);
  return drawPlot({
    title: title || (quantity === 'speed_mps' ? 'How fast you were' : 'How many steps a second'),
    description: `${axisLabel(quantity)} by ${byDistance ? 'distance' : 'step'}, left and right, over what is normal for the athlete`,
    x_label: byDistance ? `distance (${unit})` : 'step',
    y_label: axisLabel(quantity),
    y_decimals: quantity === 'contact_time_ms' ? 0 : 1,
    y_least: leastSpan(quantity, values[0] ?? 1),
    bands: [
      {
        points: band
          .map((entry) => ({ x: entry.at * scale, low: entry.low, high: entry.high }))
          .filter((entry) => entry.x <= last + 1),
      },
    ].filter((entry) => entry.points.length > 1),
    series: [
      { points: side('left'), form: 'circle', tone: 'left', joined: true, name: 'left' },
      { points: side('right'), form: 'square', tone: 'right', joined: true, dashed: true, name: 'right' },
    ],
  });
}

function lower(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
