import type { QuantitySummary, RepetitionSummary } from './schemas/analysis.ts';

type Means = RepetitionSummary['all'];

/** A mean of one contact says nothing of a stretch: at speed takes one of each foot. */
const LEAST_CONTACTS = 2;

/** Whether these means describe a stretch at speed: contacts (or steps) of both feet's number were measured in it. */
export function isStretchAtSpeed(at_speed: Means): boolean {
  const counted = [at_speed.contact_time_ms, at_speed.step_time_ms].map((summary?: QuantitySummary) => summary?.n ?? 0);
  return Math.max(...counted) >= LEAST_CONTACTS;
}

/**
 * The one rule of what a repetition's means are over: the contacts at speed, or all where hardly any was at speed. Lists,
 * files, the live view, the coach's judgement and the page of a repetition all ask here.
 */
export function meansOfRepetition({ at_speed, all }: Pick<RepetitionSummary, 'at_speed' | 'all'>): {
  means: Means;
  stretch: 'at_speed' | 'all';
  over: 'at speed' | 'all contacts';
} {
  return isStretchAtSpeed(at_speed)
    ? { means: at_speed, stretch: 'at_speed', over: 'at speed' }
    : { means: all, stretch: 'all', over: 'all contacts' };
}
