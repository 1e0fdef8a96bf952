import { phrasesOf } from '../../app/language.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { DayPlot } from './day-plot.tsx';
import { RepetitionsTable } from './repetitions-table.tsx';

const t = phrasesOf('session', sessionWords);

interface AthleteRepetitionsProps {
  repetitions: RepetitionLine[];
  doubts: SessionWithRepetitions['recording_doubts'];
  athleteName: (athlete_id: number) => string;
}

/** Each athlete's repetitions of the day: contact time through the session, and the figures. */
export function AthleteRepetitions({ repetitions, doubts, athleteName }: AthleteRepetitionsProps) {
  const athletes = new Map<number, RepetitionLine[]>();
  for (const repetition of repetitions) {
    athletes.set(repetition.athlete_id, [...(athletes.get(repetition.athlete_id) ?? []), repetition]);
  }
  return (
    <>
      {[...athletes].map(([athlete_id, list]) => (
        <section key={athlete_id} class="athlete-day">
          <h2>
            <a class="quiet-link" href={`#/athletes/${athlete_id}`}>
              {athleteName(athlete_id)}
            </a>
          </h2>
          <div class="plot-and-table">
            <DayPlot repetitions={list} />
            <RepetitionsTable
              caption={t('repetitions_of', { name: athleteName(athlete_id) })}
              repetitions={list}
              doubts={doubts}
            />
          </div>
        </section>
      ))}
    </>
  );
}
