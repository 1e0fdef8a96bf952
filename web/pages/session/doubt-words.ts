import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';

type Doubt = SessionWithRepetitions['recording_doubts'][number];

/** What the analysis doubts about a recording, in a few words; the repetition's page says what to do. */
const WORDS: Record<string, string> = {
  SENSOR_LOOSE: 'sat loose',
  SENSOR_TURNED: 'slipped',
  SIDES_DOUBTFUL: 'left and right look swapped',
  MOUNTING_DOUBTFUL: 'moves like one worn elsewhere',
  AXES_DOUBTFUL: 'axes do not fit each other',
  SENSOR_SCALE_DOUBTFUL: 'reads wrongly at rest',
};

/** `left sensor: sat loose`; empty where nothing is doubted. */
export function doubtWords(doubts: Doubt[], repetition_id: number): string {
  return doubts
    .filter((doubt) => doubt.repetition_id === repetition_id)
    .map(({ code, sides }) => {
      const whose = sides.length > 1 ? 'both sensors' : sides[0] === 'unknown' ? 'sensor' : `${sides[0]} sensor`;
      return `${whose}: ${WORDS[code] ?? 'recording doubtful'}`;
    })
    .join('; ');
}
