import { phrasesOf } from '../../app/language.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';

const t = phrasesOf('session', sessionWords);

type Doubt = SessionWithRepetitions['recording_doubts'][number];

/** What the analysis doubts about a recording, in a few words; the repetition's page says what to do. */
const WORDS = {
  SENSOR_LOOSE: 'sat_loose',
  SENSOR_TURNED: 'slipped',
  SIDES_DOUBTFUL: 'sides_look_swapped',
  MOUNTING_DOUBTFUL: 'worn_elsewhere',
  AXES_DOUBTFUL: 'axes_misfit',
  SENSOR_SCALE_DOUBTFUL: 'wrong_at_rest',
} as const;
const WHOSE = { left: 'left_sensor', right: 'right_sensor', unknown: 'sensor' } as const;

/** `left sensor: sat loose`; empty where nothing is doubted. */
export function doubtWords(doubts: Doubt[], repetition_id: number): string {
  return doubts
    .filter((doubt) => doubt.repetition_id === repetition_id)
    .map(({ code, sides }) => {
      const whose = t(sides.length > 1 ? 'both_sensors' : WHOSE[sides[0]]);
      return `${whose}: ${t(WORDS[code as keyof typeof WORDS] ?? 'recording_doubtful')}`;
    })
    .join('; ');
}
