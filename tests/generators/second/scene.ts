import type { Athlete } from './athlete.ts';
import type { Contact } from './contact.ts';
import type { Pieces } from './curves.ts';
import type { Leg } from './leg.ts';
import type { Path } from './path.ts';
import type { Random } from './random.ts';
import type { Side } from './schedule.ts';
import type { Sole } from './sole.ts';

/** Motion of the middle of the hips: along the line (m), up (m), and how far the left hip joint is ahead of the right's mean (m). */
export interface Tracks {
  s: Pieces;
  z: Pieces;
  pelvis: Pieces;
}

/** What a session is made of, filled from its start to its end. */
export interface Scene {
  athlete: Athlete;
  leg: Leg;
  sole: Sole;
  tracks: Tracks;
  contacts: Contact[];
  path: Path;
  r: Random;
}

/** The hip at an instant: s, m along the line, m/s, m up, m/s. */
export interface HipState {
  t: number;
  s: number;
  v: number;
  z: number;
  vz: number;
}

export const gravity = 9.80665;
export const lateralOf = (side: Side, width: number): number => (side === 'left' ? width : -width);
