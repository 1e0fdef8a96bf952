import type { AlignedStreams } from '../../../ingest/ble/assembly/align-streams.ts';
import { commonTime } from '../../../shared/sensor-clock.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { VIGOROUS_MPS2 } from '../sensors/movement.ts';

/** Rest that parts two stretches, and what is looked at before and behind each: longer than a start's quiet and a last step. */
const REST_S = 20;
const BEFORE_S = 10;
const BEHIND_S = 4;

export interface Stretch {
  from_s: number;
  to_s: number;
}

/** Where a foot or shank moved as only running makes it, by host time: an hour of standing about need not be analysed. */
export function movingStretches({ sensors, zero_s }: AlignedStreams): Stretch[] {
  const moments = sensors.flatMap((sensor) => {
    const { time_s, acc_mps2 } = sensor.samples;
    const { x, y, z } = acc_mps2;
    const own: number[] = [];
    for (let i = 0; i < time_s.length; i++) {
      if (Math.abs(Math.hypot(x[i], y[i], z[i]) - STANDARD_GRAVITY_MPS2) <= VIGOROUS_MPS2) continue;
      const at_s = zero_s + commonTime(time_s[i], sensor);
      // One moment a tenth of a second is enough.
      if (own.length === 0 || at_s - own[own.length - 1] > 0.1) own.push(at_s);
    }
    return own;
  });
  const stretches: Stretch[] = [];
  for (const at_s of moments.sort((a, b) => a - b)) {
    const last = stretches.at(-1);
    if (last !== undefined && at_s - last.to_s < REST_S) last.to_s = at_s;
    else stretches.push({ from_s: at_s, to_s: at_s });
  }
  return stretches.map(({ from_s, to_s }) => ({ from_s: from_s - BEFORE_S, to_s: to_s + BEHIND_S }));
}
