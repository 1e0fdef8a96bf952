import type { Fault } from '../../../fault-shape.ts';
import type { FaultRoom } from '../../sentence.ts';

const NO_RUNNING = 'No running was found in the recording: standing and walking do not count. The recording is kept.';

/** What is missing in the store, and what an analysis of recordings ends with. */
export const recordingFaults = {
  ATHLETE_NOT_FOUND: missing('athlete'),
  GROUP_NOT_FOUND: missing('group'),
  SESSION_NOT_FOUND: missing('session'),
  REPETITION_NOT_FOUND: missing('repetition'),
  RECORDING_NOT_FOUND: missing('recording'),
  IMPORT_NOT_FOUND: missing('import'),
  ANALYSIS_NOT_FOUND: missing('analysis'),
  LAYOUT_NOT_FOUND: missing('layout'),
  NO_RUNNING_FOUND: {
    message: NO_RUNNING,
    hint: 'Check that the files belong to this repetition, the mounting (foot or shank) and the sampling rate.',
  },
  'NO_RUNNING_FOUND.worn_elsewhere': {
    message: ({ doubt }: { doubt: Fault }, say) => `${NO_RUNNING} ${say.tell(doubt).message}`,
    hint: ({ doubt }: { doubt: Fault }, say) => say.tell(doubt).hint,
  },
  'INTERNAL.reanalysis': {
    message: ({ why }: { why: string }) => `The program failed at this repetition: ${why}`,
    hint: '',
  },
} as const satisfies FaultRoom;

function missing(what: string) {
  return {
    message: ({ id }: { id: number }) => `There is no ${what} ${id}.`,
    hint: 'It may have been deleted. The list of them is current; deleted ones can be restored.',
  };
}
