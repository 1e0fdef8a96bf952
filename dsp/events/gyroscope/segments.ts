import type { Mounting } from '../../../shared/words.ts';
import { FOOT_SEGMENT } from './foot-segment.ts';
import type { Segment } from './segment.ts';
import { SHANK_SEGMENT } from './shank-segment.ts';

/** One object a mounting: another one does not compile here until all of it is said. */
export const SEGMENTS: Record<Mounting, Segment> = { foot: FOOT_SEGMENT, shank: SHANK_SEGMENT };
