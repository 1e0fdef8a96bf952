/** Recordings with several repetitions and the walks between them: how many are found, when each begins and ends. */
import { analyse } from '../../../dsp/analyse.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { Mounting } from '../../../shared/words.ts';
import type { TargetLine } from './targets.ts';
import { pairOfSensors } from './validation-case.ts';

export interface RepetitionFigures {
  mounting: Mounting;
  recordings: number;
  repetitions: number;
  found: number;
  extra: number;
  /** Errors of first movement, s; null where none was stated. */
  first_movement_s: (number | null)[];
}

/** Two sprints and a part-speed run in one recording, the athlete walking and standing in between. */
export function repetitionFigures(seeds: number[]): RepetitionFigures[] {
  const figures = (['foot', 'shank'] as const).map(
    (mounting): RepetitionFigures => ({
      mounting,
      recordings: seeds.length,
      repetitions: 0,
      found: 0,
      extra: 0,
      first_movement_s: [],
    }),
  );
  for (const seed of seeds) {
    const made = generateRepetition({
      seed,
      repetitions: [{ effort: 0.75, distance_m: 30 }, { distance_m: 36.576 }, { distance_m: 36.576, fatigue: 0.02 }],
      walk_steps: 10,
      sensor: { rate_hz: 500 },
    });
    for (const entry of figures) {
      const sensors = pairOfSensors(entry.mounting, made.sensors[entry.mounting]);
      const { repetitions } = analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
      const free = new Set(repetitions);
      for (const truth of made.truth.repetitions) {
        const contacts = made.truth.contacts.filter((contact) => contact.repetition === truth.repetition);
        const [from, to] = [contacts[0].touchdown_s, contacts[contacts.length - 1].toe_off_s];
        entry.repetitions++;
        // Found: one repetition that covers most of it and nothing of the next.
        const found = repetitions.find(
          ({ contacts: c }) =>
            Math.abs(c[0].touchdown_s - from) < 0.6 && Math.abs(c[c.length - 1].touchdown_s - to) < 1.2,
        );
        if (!found) continue;
        free.delete(found);
        entry.found++;
        const first = truth.first_movement_s ?? Number.NaN;
        entry.first_movement_s.push(found.first_movement_s === null ? null : found.first_movement_s - first);
      }
      entry.extra += free.size;
    }
  }
  return figures;
}

export function repetitionTargets(figures: RepetitionFigures[]): TargetLine[] {
  return figures.map((f) => {
    const errors = f.first_movement_s.filter((e) => e !== null);
    const mean = errors.reduce((sum, e) => sum + e, 0) / errors.length;
    const spread = Math.sqrt(errors.reduce((sum, e) => sum + (e - mean) ** 2, 0) / (errors.length - 1));
    const movement =
      errors.length > 1 ? `${(1000 * mean).toFixed(0)} +- ${(1000 * spread).toFixed(0)} ms` : 'not stated';
    return {
      what: `repetitions of a recording, ${f.mounting}`,
      target: 'all found, none extra',
      published: 'common practice',
      reached: `${f.found} of ${f.repetitions}, ${f.extra} extra; first movement ${movement} (n ${errors.length})`,
      met: f.found === f.repetitions && f.extra === 0,
    };
  });
}
