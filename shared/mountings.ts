import type { Mounting } from './words.ts';

/** What every part says of a place that a sensor is worn at. */
interface MountingPlace {
  /** What the sensor is fastened to. */
  place: string;
  /** The segment that it follows, as a tracked point is named. */
  segment: string;
  /** The place that it was worn at where its motion does not fit. */
  mistaken_for: Mounting;
}

/** One entry a mounting: a further one does not compile until every table of this kind knows it. */
export const MOUNTING_PLACES: Record<Mounting, MountingPlace> = {
  foot: { place: 'shoe', segment: 'Foot', mistaken_for: 'shank' },
  shank: { place: 'shank', segment: 'Shank', mistaken_for: 'foot' },
};
