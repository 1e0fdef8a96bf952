/** Simulated athletes of known variation: how often a verdict speaks when nothing changed, and how soon when something did. */
import { athleteBaseline, type BaselineValue, judgeRepetition } from '../../../../dsp/athlete/index.ts';
import { normal } from '../../../helpers/random.ts';
import { formerBaseline, formerVerdict } from './former-rule.ts';

/** SDs are in per cent of the value; a contact time of 110 ms. */
export interface SimulatedAthlete {
  sessions: number;
  repetitions: number;
  /** Typical error: SD of one repetition over days, per cent. */
  typical_error: number;
  /** Part of its variance between days. */
  between_share: number;
}

export const SIZE_MS = 110;
const CONTACTS = 12;
const EVENING = 6;

export interface EveningFigures {
  /** Share of repetitions, and of whole evenings of six repetitions, at which a change was told. */
  repetitions: number;
  evenings: number;
  /** Share told in the right direction by the first, second, ... sixth repetition. */
  told_by: number[];
}

export type Rule = (history: readonly BaselineValue[], day: number) => (session: readonly number[]) => string | null;

export const FORMER: Rule = (history) => {
  const baseline = formerBaseline(history);
  return (session) => formerVerdict(baseline, session);
};

export const PRESENT: Rule = (history, day) => {
  const baseline = athleteBaseline(history, { quantity: 'contact_time_ms', day })!;
  return (session) => judgeRepetition(baseline, session).beyond;
};

/** One athlete's repetitions of one day around a level, in the quantity's unit. */
export function dayOf(z: () => number, athlete: SimulatedAthlete, count: number, change: number): number[] {
  const sd = (athlete.typical_error / 100) * SIZE_MS;
  const level = Math.sqrt(athlete.between_share) * z();
  const within = Math.sqrt(1 - athlete.between_share);
  return Array.from({ length: count }, () => SIZE_MS + sd * (level + within * z() + change));
}

/** @param change size of the change in typical errors */
export function simulateEvenings(
  rule: Rule,
  athlete: SimulatedAthlete,
  change: number,
  athletes: number,
  seed: number,
) {
  const z = normal(seed);
  const figures: EveningFigures = { repetitions: 0, evenings: 0, told_by: new Array(EVENING).fill(0) };
  for (let a = 0; a < athletes; a++) {
    const history: BaselineValue[] = Array.from({ length: athlete.sessions }, (_, s) =>
      dayOf(z, athlete, athlete.repetitions, 0).map((value) => ({
        value,
        session: s,
        day: 3.5 * s,
        contacts: CONTACTS,
      })),
    ).flat();
    const judge = rule(history, 3.5 * athlete.sessions);
    const evening = dayOf(z, athlete, EVENING, change);
    const words = evening.map((_, k) => judge(evening.slice(0, k + 1)));
    const right = words.map((word) => word === (change < 0 ? 'below' : 'above'));
    figures.repetitions += words.filter(Boolean).length / EVENING / athletes;
    figures.evenings += words.some(Boolean) ? 1 / athletes : 0;
    right.forEach((_, k) => {
      if (right.slice(0, k + 1).some(Boolean)) figures.told_by[k] += 1 / athletes;
    });
  }
  return figures;
}
