import { studentQuantile, studentTwoSided } from '../numeric/distributions.ts';
import { mean } from '../numeric/statistics.ts';
import { type BaselineValue, knownComponents } from './baseline.ts';
import { degreesOfFreedom } from './judge-repetition.ts';

/** A level of an athlete: the mean of some sessions, each session counting alike. */
export interface Level {
  value: number;
  sessions: number;
  repetitions: number;
  first_day: number;
  last_day: number;
}

/** What changed from before a block of training to now. */
export interface BlockChange {
  before: Level;
  now: Level;
  /** Now minus before, with its 95 % interval. */
  change: number;
  low: number;
  high: number;
  /** Probability, 0.5 to 1, that the level moved in the direction of the change. */
  certainty: number;
  beyond: 'above' | 'below' | null;
}

/**
 * It is looked at after every session of a block. That a change is told needs 99.4 % at one look: so at most 5 % of athletes
 * who never changed are told a change in sixteen looks, also where 40 % of their variance lies between days
 * (`npm run verdict:figures`).
 */
const ALPHA = 0.006;
/** 'Now' is the latest sessions, as many as these and no older than that many days before the latest. */
const NOW = { sessions: 4, days: 21 };
/** 'Before' is the sessions before the block, as many as these and no older than that; else the block's first two. */
const BEFORE = { sessions: 6, days: 60, fewest: 2 };

/**
 * Before and after of a block. Sessions count, not repetitions: those of one afternoon are no independent evidence.
 * @param values like repetitions, oldest first, up to and with the day it is looked at
 * @param quantity name of the field
 * @param start_day first day of the block
 * @returns null until there are two sessions on either side, or when nobody knows how the quantity varies
 */
export function blockChange(values: readonly BaselineValue[], quantity: string, start_day: number): BlockChange | null {
  const sessions = sessionsOf(values);
  const inBlock = sessions.filter((session) => session.day >= start_day);
  const earlier = sessions
    .filter((session) => session.day < start_day && start_day - session.day <= BEFORE.days)
    .slice(-BEFORE.sessions);
  const [before, rest] =
    earlier.length >= BEFORE.fewest
      ? [earlier, inBlock]
      : [inBlock.slice(0, BEFORE.fewest), inBlock.slice(BEFORE.fewest)];
  const latest = rest.at(-1);
  if (!latest || before.length < BEFORE.fewest) return null;
  const now = rest.filter((session) => latest.day - session.day <= NOW.days).slice(-NOW.sessions);
  if (now.length < 2) return null;
  const used = [...before, ...rest];
  const centre = mean(used.map((session) => session.value));
  const components = knownComponents(
    quantity,
    centre,
    used.flatMap((session) => session.values),
  );
  if (!components) return null;
  const change = levelOf(now).value - levelOf(before).value;
  const days = 1 / before.length + 1 / now.length;
  const repetitions = share(before) + share(now);
  const sd = Math.sqrt(components.between * days + components.within * repetitions);
  const df = degreesOfFreedom(components, days, repetitions);
  const half = studentQuantile(0.975, df) * sd;
  const by_chance = studentTwoSided(change / sd, df);
  return {
    before: levelOf(before),
    now: levelOf(now),
    change,
    low: change - half,
    high: change + half,
    certainty: 1 - by_chance / 2,
    beyond: by_chance < ALPHA ? (change > 0 ? 'above' : 'below') : null,
  };
}

interface SessionValues {
  day: number;
  value: number;
  values: BaselineValue[];
}

function sessionsOf(values: readonly BaselineValue[]): SessionValues[] {
  const groups = new Map<string | number, BaselineValue[]>();
  for (const v of values) {
    if (Number.isFinite(v.value)) groups.set(v.session, [...(groups.get(v.session) ?? []), v]);
  }
  return [...groups.values()]
    .map((group) => ({ day: group[0].day, value: mean(group.map((v) => v.value)), values: group }))
    .sort((a, b) => a.day - b.day);
}

function levelOf(sessions: readonly SessionValues[]): Level {
  return {
    value: mean(sessions.map((session) => session.value)),
    sessions: sessions.length,
    repetitions: sessions.reduce((sum, session) => sum + session.values.length, 0),
    first_day: sessions[0].day,
    last_day: sessions[sessions.length - 1].day,
  };
}

/** Variance of a mean of session means for one unit of variance within sessions. */
function share(sessions: readonly SessionValues[]): number {
  return sessions.reduce((sum, session) => sum + 1 / session.values.length, 0) / sessions.length ** 2;
}
