import type { Mounting } from '../../../shared/words.ts';
import { ACCELEROMETER_FOOT } from './accelerometer-foot.ts';
import type { AccelerometerSegment } from './accelerometer-segment.ts';
import { ACCELEROMETER_SHANK } from './accelerometer-shank.ts';

/** One object a mounting: another one does not compile here until all of it is said. */
export const ACCELEROMETER_SEGMENTS: Record<Mounting, AccelerometerSegment> = {
  foot: ACCELEROMETER_FOOT,
  shank: ACCELEROMETER_SHANK,
};
