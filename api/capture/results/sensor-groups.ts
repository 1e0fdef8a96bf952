import { type Notice, notice } from '../../../shared/notice.ts';
import type { Mounting, Side } from '../../../shared/words.ts';

export interface Placed {
  side: Side;
  mounting: Mounting;
  athlete_id: number | null;
}

export interface SensorGroup<Sensor> {
  athlete_id: number | null;
  /** One sensor, or a left and a right one of one mounting: what an analysis can take. */
  sensors: Sensor[];
}

export interface GroupedSensors<Sensor> {
  groups: SensorGroup<Sensor>[];
  /** Recorded, but not measured, and why. */
  set_aside: { sensor: Sensor; why: Notice }[];
}

/**
 * Which sensors are measured together. Of an athlete, one pair: on the feet where there is one, else on the shanks. Sensors of
 * nobody make a pair each two, in their order, since they may belong to several people.
 */
export function groupSensors<Sensor>(sensors: Sensor[], placeOf: (sensor: Sensor) => Placed): GroupedSensors<Sensor> {
  const grouped: GroupedSensors<Sensor> = { groups: [], set_aside: [] };
  for (const athlete_id of new Set(sensors.map((sensor) => placeOf(sensor).athlete_id))) {
    const own = sensors.filter((sensor) => placeOf(sensor).athlete_id === athlete_id);
    const pairs = (['foot', 'shank'] as const).flatMap((mounting) =>
      pairUp(
        own.filter((sensor) => placeOf(sensor).mounting === mounting),
        (sensor) => placeOf(sensor).side,
      ),
    );
    if (athlete_id === null) {
      grouped.groups.push(...pairs.map((pair) => ({ athlete_id, sensors: pair })));
      continue;
    }
    // A whole pair before a single sensor; among equals the feet, which come first.
    const best = pairs.reduce((most, pair) => (pair.length > most.length ? pair : most), pairs[0]);
    grouped.groups.push({ athlete_id, sensors: best });
    for (const sensor of own.filter((one) => !best.includes(one))) {
      grouped.set_aside.push({ sensor, why: whyNot(placeOf(sensor), placeOf(best[0])) });
    }
  }
  return grouped;
}

/** Left with right in their order; what has no partner, or no side, alone. */
function pairUp<Sensor>(sensors: Sensor[], sideOf: (sensor: Sensor) => Side): Sensor[][] {
  const of = (side: Side) => sensors.filter((sensor) => sideOf(sensor) === side);
  const [left, right] = [of('left'), of('right')];
  const both = Array.from({ length: Math.max(left.length, right.length) }, (_, i) =>
    [left[i], right[i]].filter((sensor) => sensor !== undefined),
  );
  return [...both, ...of('unknown').map((sensor) => [sensor])];
}

function whyNot({ side, mounting }: Placed, measured: Placed): Notice {
  if (mounting !== measured.mounting) return notice('other_mounting_measured', { mounting: measured.mounting });
  return side === 'unknown' ? notice('has_no_side') : notice('same_place', { side, mounting });
}
