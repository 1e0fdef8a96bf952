/** What the club's coach works on: some of it from the list, some in words of their own, all invented. */
import type { NewCoachFocus } from '../../shared/schemas/coach/focus.ts';

/** Focuses that the coach wrote, by the name that the athletes' stories use. */
export const OWN_FOCUSES: Record<string, NewCoachFocus> = {
  landing: {
    name: 'Quiet landing',
    meaning: 'The foot comes down flat and without noise at part speed, not heel first.',
    cue: 'Land like on a drum skin',
    quantities: [{ quantity: 'foot_pitch_touchdown_deg', aim: 'no fixed direction', mounting: 'foot', target: null }],
  },
  heel: {
    name: 'Heel path',
    meaning: 'The heel travels close under the seat after the push.',
    cue: 'Zip the heel up',
    quantities: [{ quantity: 'heel_recovery_height_m', aim: 'higher', mounting: 'foot', target: null }],
  },
  tracks: {
    name: 'Feet on rails',
    meaning: 'Both feet point along the lane while they are down.',
    cue: 'Two rails',
    quantities: [{ quantity: 'foot_progression_deg', aim: 'nearer zero', mounting: 'foot', target: null }],
  },
};

/** The coach's cues for focuses of the list. */
export const CUES: Record<string, string> = {
  contact_time: 'Bounce off the boards',
  evenness: 'Same drum, left and right',
  rhythm: 'Ride the wave',
  acceleration_end: 'Stay in the tunnel',
};
