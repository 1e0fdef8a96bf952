import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { Contact } from '../../../shared/analysis.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import type { Picture, Report } from '../../../shared/schemas/coach/report.ts';
import type { RepetitionLine, RepetitionProfile } from '../../../shared/schemas/repetition.ts';
import { readProfile } from '../../measuring/read-profile.ts';
import { getAthlete } from '../../store/athletes.ts';
import { getRepetitionLine } from '../../store/repetitions.ts';
import { getSession } from '../../store/sessions.ts';
import type { Store } from '../../store/store.ts';
import { judgeStoredRepetition } from '../judgement/judge-stored-repetition.ts';
import { oneSentence } from '../judgement/verdict.ts';
import { cautionsFor } from '../words/cautions.ts';
import { focusSentence } from '../words/focus-sentence.ts';
import { METRES, numberText } from '../words/quantity-words.ts';
import { drawPlot } from './draw-plot.ts';
import { drawStrips } from './draw-strips.ts';
import { axisLabel, distanceText, type LengthUnit, leastSpan } from './report-words.ts';

/** One page about one repetition. @throws FaultError REPORT_EMPTY when it was not analysed */
export function repetitionReport(
  store: Store,
  repetition_id: number,
  unit: LengthUnit,
  words: JudgementWords = JUDGEMENT_EN,
): Report {
  const repetition = getRepetitionLine(store, repetition_id);
  if (repetition.analysis_id === null) {
    throw new FaultError(fault('REPORT_EMPTY.repetition', { repetition_id }, { repetition_id }));
  }
  const session = getSession(store, repetition.session_id);
  const athlete = getAthlete(store, repetition.athlete_id);
  const judged = judgeStoredRepetition(store, athlete.athlete_id, session, repetition, { length: unit, words });
  const profile = readProfile(store, repetition_id);
  const contact = judged.judgements.find((judgement) => judgement.quantity === 'contact_time_ms');
  return {
    kind: 'repetition',
    name: athlete.name,
    title: words.coach.reporting('repetition_title', {
      n: repetition.order_number,
      date: words.date(session.session_date, ''),
    }),
    date: session.session_date,
    sentences: [
      opening(repetition, profile.contacts, unit, words),
      oneSentence(judged.verdict),
      judged.stop,
      contact?.side_sentence ?? '',
      judged.focus ? focusSentence(judged.focus, words) : '',
    ]
      .filter(Boolean)
      .slice(0, 5),
    pictures: pictures(onCourse(profile, repetition.course_distance_m), judged.judgements, unit, words),
    cautions: cautionsFor([judged], words),
    note: repetition.notes || null,
  };
}

/** What was run: `40 yd in 5.31 s, in 21 steps.` Contacts after the line are run-out and no step of the course. */
function opening(
  repetition: RepetitionLine,
  contacts: readonly Contact[],
  unit: LengthUnit,
  words: JudgementWords,
): string {
  const say = words.coach.reporting;
  const { course_distance_m, course_time_s, timing_method } = repetition;
  const ran = say('ran', {
    course: course_distance_m === null ? say('course_not_given') : distanceText(course_distance_m, unit, words),
    time: course_time_s === null ? null : `${numberText(course_time_s, 2, words)} s`,
    hand: timing_method === 'hand',
  });
  const steps = stepsToLine(contacts, course_distance_m);
  return steps === null ? say('contacts_measured', { ran, n: contacts.length }) : say('in_steps', { ran, n: steps });
}

/** Contacts up to the line; null where places along the course are not known. */
export function stepsToLine(contacts: readonly Contact[], course_distance_m: number | null): number | null {
  if (course_distance_m === null || contacts.some((contact) => contact.distance_m === null)) return null;
  return contacts.filter((contact) => contact.distance_m! <= course_distance_m).length;
}

/** The profile without the run-out, which would press the course into half of a plot. */
function onCourse(profile: RepetitionProfile, course_distance_m: number | null): RepetitionProfile {
  const steps = stepsToLine(profile.contacts, course_distance_m);
  return steps === null ? profile : { ...profile, contacts: profile.contacts.slice(0, steps) };
}

function pictures(
  profile: RepetitionProfile,
  judgements: Judgement[],
  unit: LengthUnit,
  words: JudgementWords,
): Picture[] {
  const measured = profile.contacts.some((contact) => contact.speed_mps !== null);
  return [
    profilePlot(profile, 'contact_time_ms', unit, words),
    profilePlot(profile, measured ? 'speed_mps' : 'step_rate_hz', unit, words),
    drawStrips(words.coach.reporting('against_normal'), judgements, unit, words),
  ];
}

const TITLES = { contact_time_ms: 'how_long', speed_mps: 'how_fast', step_rate_hz: 'steps_a_second' } as const;

/** One quantity step by step, left and right, over normal variation. */
function profilePlot(
  profile: RepetitionProfile,
  quantity: 'contact_time_ms' | 'speed_mps' | 'step_rate_hz',
  unit: LengthUnit,
  words: JudgementWords,
): Picture {
  const say = words.coach.reporting;
  const { contacts, baseline } = profile;
  const byDistance = contacts.filter((contact) => contact.distance_m !== null).length > contacts.length / 2;
  const scale = byDistance ? 1 / METRES[unit] : 1;
  const at = (contact: Contact) => (byDistance ? (contact.distance_m ?? Number.NaN) * scale : contact.step);
  const band = baseline.quantities[quantity]?.[byDistance ? 'by_distance' : 'by_step'] ?? [];
  const own = contacts.filter((contact) => Number.isFinite(at(contact)));
  const last = Math.max(0, ...own.map(at));
  const side = (side: 'left' | 'right') =>
    own.filter((contact) => contact.side === side).map((contact) => ({ x: at(contact), y: contact[quantity] }));
  const values = own.map((contact) => contact[quantity]).filter((value) => value !== null);
  return drawPlot({
    title: say(TITLES[quantity]),
    description: say(byDistance ? 'by_distance' : 'by_step', { quantity: axisLabel(quantity, words) }),
    x_label: byDistance ? say('distance_axis', { unit }) : say('step_axis'),
    y_label: axisLabel(quantity, words),
    words,
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
      { points: side('left'), form: 'circle', tone: 'left', joined: true, name: say('left') },
      { points: side('right'), form: 'square', tone: 'right', joined: true, dashed: true, name: say('right') },
    ],
  });
}
