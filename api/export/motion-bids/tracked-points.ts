import type { Mounting, Side } from '../../../shared/words.ts';
import { unreadable } from './read-motion-bids.ts';

/** A row of a channels file. */
export type Channel = Record<string, string>;

/** A tracked point that is read, with the side and place that it is on. */
export interface ChosenPoint {
  name: string;
  side: Side;
  mounting: Mounting | null;
}

/** Points named by the user, with their sides. */
export type PointsTold = ReadonlyMap<string, Side>;

const FOOT = /foot|shoe|toe|heel|instep/i;
const SHANK = /shank|shin|tibia|ankle|calf|lower.?leg/i;

/** Points with acceleration, in the order of the channels. */
export function inertialPoints(channels: Channel[]): string[] {
  return [...new Set(channels.flatMap(({ type, tracked_point }) => (type === 'ACCEL' ? [tracked_point] : [])))];
}

/**
 * The points of a file to be read: those that were told, else those on feet, else those on shanks, one a side, left before right. A file
 * with one point has that one, whatever it is called.
 * @throws FaultError DATASET_UNREADABLE, with every point, where none of several lies on a foot or shank
 */
export function choosePoints(file: string, all: string[], told: PointsTold): ChosenPoint[] {
  const named = all.filter((name) => told.has(name));
  if (named.length > 0)
    return bySide(named.map((name) => ({ name, side: told.get(name)!, mounting: mountingOf(name) })));
  if (all.length === 1) return [pointOf(all[0])];
  const points = all.map(pointOf);
  const feet = points.filter(({ mounting }) => mounting === 'foot');
  const chosen = feet.length > 0 ? feet : points.filter(({ mounting }) => mounting === 'shank');
  if (chosen.length === 0) throw unreadable('points', file, { points: all.join(', ') });
  return bySide(chosen.filter(({ side }, i) => chosen.findIndex((other) => other.side === side) === i));
}

const pointOf = (name: string): ChosenPoint => ({ name, side: sideOf(name), mounting: mountingOf(name) });

/** Where a point's name says it sits; null where it does not. */
function mountingOf(point: string): Mounting | null {
  if (SHANK.test(point)) return 'shank';
  return FOOT.test(point) ? 'foot' : null;
}

function sideOf(point: string): Side {
  if (/left|(^|[_ -])l($|[_ -])/i.test(point)) return 'left';
  return /right|(^|[_ -])r($|[_ -])/i.test(point) ? 'right' : 'unknown';
}

function bySide(points: ChosenPoint[]): ChosenPoint[] {
  return [...points].sort((a, b) => a.side.localeCompare(b.side));
}
