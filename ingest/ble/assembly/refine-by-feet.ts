import { commonTime } from '../../../shared/sensor-clock.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import { lagNear } from '../../clock/lag-near.ts';

/** How far arrivals may be off: within this many standard uncertainties, and less than half a step of the fastest runner. */
const WITHIN_U = 3;
const MARGIN_S = 0.01;
const MOST_S = 0.08;

/**
 * Two feet that arrivals have put on one clock, brought nearer by what they felt: knocks of both sensors at once, and the
 * alternation of the steps. Each counts by its own uncertainty, so where arrivals tell well, the steps hardly move anything and a
 * runner's own asymmetry stays.
 * @returns the sensors with the later one of each pair moved, and the uncertainty that is left; as they were where the feet tell nothing
 */
export function refineByFeet(sensors: SensorRecording[]): SensorRecording[] {
  const refined = [...sensors];
  for (const [r, right] of sensors.entries()) {
    const l = sensors.findIndex((one) => one.side === 'left' && one.mounting === right.mounting);
    if (right.side !== 'right' || l < 0) continue;
    const move = correction(sensors[l], right);
    if (move === null) continue;
    // The earlier one gives the analysis its zero.
    const moved = right.clock_offset_s >= sensors[l].clock_offset_s ? r : l;
    const by_s = moved === r ? move.by_s : -move.by_s;
    refined[moved] = {
      ...refined[moved],
      clock_offset_s: refined[moved].clock_offset_s + by_s,
      clock_offset_u_s: move.u_s,
    };
    const other = moved === r ? l : r;
    refined[other] = { ...refined[other], clock_offset_u_s: 0 };
  }
  return refined;
}

/** What to add to the right's common time, and the standard uncertainty between the two then. */
function correction(left: SensorRecording, right: SensorRecording): { by_s: number; u_s: number } | null {
  const arrival_u_s = Math.hypot(left.clock_offset_u_s, right.clock_offset_u_s);
  const near_s = right.clock_offset_s - left.clock_offset_s;
  const found = lagNear(left.samples, right.samples, near_s, Math.min(MOST_S, WITHIN_U * arrival_u_s + MARGIN_S));
  if (found === null) return null;
  // By the steps, the right's instant `own_s` was at `at_s` of the left's clock.
  const own_s = found.at_s - found.lag_s;
  const off_s = commonTime(found.at_s, left) - commonTime(own_s, right);
  const weight = arrival_u_s ** 2 / (arrival_u_s ** 2 + found.u_s ** 2);
  return { by_s: weight * off_s, u_s: Math.sqrt(weight) * found.u_s };
}
