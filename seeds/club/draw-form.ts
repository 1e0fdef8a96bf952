/** How an athlete's form goes: what the work changes, days that vary, tiring within a session. Drawn, not written down. */
import { makeRandom } from '../random.ts';
import type { ClubAthlete } from './athletes.ts';
import { daysAgo } from './season.ts';

/** Mean and SD of what a block of work changes, as shares: top speed, contact time, what is left of a side difference. */
const COURSES = {
  improves: { speed: [0.02, 0.005], contact: [-0.055, 0.01], side: [0.45, 0.08] },
  stays: { speed: [0, 0.003], contact: [0, 0.004], side: [1, 0.05] },
  worsens: { speed: [-0.025, 0.005], contact: [0.04, 0.008], side: [1, 0.05] },
} as const;

/** Days of work after which most of it shows. */
const SHOWS_AFTER_DAYS = 6;

export interface Form {
  full_speed_mps: number;
  contact_factor: number;
  side_difference: number;
  fatigue: number;
}

/** @param sessionIndex counted back from today's (0) @param order of the repetition within the session, from 0 */
export function formOf(athlete: ClubAthlete, sessionIndex: number, order: number, seed: number): Form {
  const drawn = makeRandom(seed).fork('course');
  const { speed, contact, side } = COURSES[athlete.course];
  const draw = ([mean, sd]: readonly [number, number]) => drawn.within(mean, sd);
  const gain = { speed: draw(speed), contact: draw(contact), side: draw(side) };
  const worked = Math.max(0, athlete.focus_since_days - daysAgo(sessionIndex));
  const share = 1 - Math.exp(-worked / SHOWS_AFTER_DAYS);
  const day = makeRandom(seed * 1009 + sessionIndex).fork('day');
  const { runner } = athlete;
  return {
    full_speed_mps: runner.full_speed_mps * (1 + gain.speed * share) * day.within(1, 0.006),
    contact_factor: (runner.contact_factor ?? 1) * (1 + gain.contact * share) * day.within(1, 0.008),
    side_difference: (runner.side_difference ?? 0) * (1 + (gain.side - 1) * share),
    fatigue: Math.max(0, order - 1) * athlete.tiring,
  };
}
