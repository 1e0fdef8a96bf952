import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { StrengthRatio, StrengthRecord } from '../../../shared/schemas/coach/strength.ts';
import { KILOGRAMS_PER_POUND } from '../../../shared/units.ts';

type Lifted = Pick<StrengthRecord, 'date' | 'lift' | 'load_kg' | 'repetitions'>;

/** Days before the latest squat in which the best single counts. */
const RECENT_DAYS = 90;

/**
 * Best single lift a set stands for: load x (1 + repetitions / 30), the load itself for a single.
 * Source: Epley's formula (from memory); good to about ten repetitions, so longer sets give null.
 */
export function bestSingle(load_kg: number, repetitions: number): number | null {
  if (repetitions === 1) return load_kg;
  return repetitions <= 10 ? load_kg * (1 + repetitions / 30) : null;
}

/**
 * Squat to body mass, the one ratio with published figures beside sprint times.
 * @param records lifts of one athlete; the best of the last 90 days before the latest counts
 * @param body_mass_kg latest body mass, null when unknown
 * @param minor true under 18: figures of adults are no aim then
 */
export function strengthRatios(
  records: readonly Lifted[],
  body_mass_kg: number | null,
  minor: boolean,
  words: JudgementWords = JUDGEMENT_EN,
): StrengthRatio[] {
  const say = words.coach.testing;
  const squat = bestSquat(records);
  const value = squat !== null && body_mass_kg !== null ? squat / body_mass_kg : null;
  const sentence =
    squat === null
      ? say('no_squat')
      : value === null
        ? say('no_body_mass')
        : say('squat_is', { kg: Math.round(squat), lb: Math.round(squat / KILOGRAMS_PER_POUND), ratio: value });
  return [
    {
      code: 'SQUAT_TO_BODY_MASS',
      label: say('squat_to_body_mass'),
      value,
      sentence,
      note: say(minor ? 'adult_figures' : 'one_group'),
      source:
        'McBride 2009, JSCR 23:1633-1636: 1.94 ± 0.33 in 17 college football players; those above 2.10 ran 40 yd faster than those below 1.90',
    },
  ];
}

/** Best single of the parallel squat on every day it was lifted, oldest first. */
export function squatCourse(records: readonly Lifted[]): { date: string; single_kg: number }[] {
  const best = new Map<string, number>();
  for (const record of records) {
    const single = record.lift === 'parallel_squat' ? bestSingle(record.load_kg, record.repetitions) : null;
    if (single !== null) best.set(record.date, Math.max(single, best.get(record.date) ?? 0));
  }
  return [...best.entries()]
    .map(([date, single_kg]) => ({ date, single_kg }))
    .sort((a, b) => a.date.localeCompare(b.date));
}

/** Largest best single within 90 days of the latest squat. */
function bestSquat(records: readonly Lifted[]): number | null {
  const course = squatCourse(records);
  const latest = course.at(-1);
  if (!latest) return null;
  const since = Date.parse(latest.date) - RECENT_DAYS * 86_400_000;
  return Math.max(...course.filter(({ date }) => Date.parse(date) >= since).map(({ single_kg }) => single_kg));
}
