import { makeRecording, type Plan } from '../../../generators/second/recording.ts';
import type { Draw } from './draw.ts';

const G = 9.80665;
const RADIANS = Math.PI / 180;
const MASTER_HZ = 2000;

/** Six channels of one side, SI, at 2000 Hz: what sensors on both legs of one athlete would read. */
interface Motion {
  left: Float64Array[];
  right: Float64Array[];
}

const plan = (name: string, mount: 'foot' | 'shank', distance: number, effort: number): Plan => ({
  name: `files ${name}`,
  athlete: `files ${name}`,
  level: 'club',
  mount,
  runs: [{ start: 'standing', effort, distance, slowing: 2 }],
  chip: { rate: MASTER_HZ, accRange: 200, gyrRange: 4000, bits: 20, cutoff: 300, jitter: 0 },
});

const PLANS: Plan[] = [
  plan('one', 'foot', 24, 1),
  plan('two', 'shank', 30, 0.8),
  plan('three', 'foot', 40, 0.6),
  plan('four', 'shank', 45, 1),
  plan('five', 'foot', 50, 0.9),
  plan('six', 'shank', 36, 0.5),
];
const made = new Map<number, Motion>();

/** @param kinds how many different motions may be drawn: each costs about two seconds, once */
export function motionOf(draw: Draw, kinds: number): Motion {
  const which = Math.floor(draw.next() * Math.min(kinds, PLANS.length));
  let motion = made.get(which);
  if (!motion) {
    const { sensors } = makeRecording(PLANS[which]);
    const si = ({ channels }: { channels: Float64Array[] }) =>
      channels.map((channel, i) => channel.map((value) => value * (i < 3 ? G : RADIANS)));
    motion = { left: si(sensors.left), right: si(sensors.right) };
    made.set(which, motion);
  }
  return motion;
}

/** One sensor's samples, SI: what a file will hold. */
export interface Samples {
  time_s: number[];
  acc: number[][];
  gyr: number[][];
}

/** A stretch of a motion at instants of its own, with the sensor turned as a strap may have it. */
export function stretch(source: Float64Array[], turn: number[][], from_s: number, instants_s: number[]): Samples {
  const samples: Samples = { time_s: [], acc: [], gyr: [] };
  for (const t of instants_s) {
    const at = (from_s + t) * MASTER_HZ;
    const row = Math.floor(at);
    if (row + 1 >= source[0].length) break;
    const part = at - row;
    const six = source.map((channel) => channel[row] + part * (channel[row + 1] - channel[row]));
    samples.time_s.push(t);
    samples.acc.push(turn.map((axis) => axis[0] * six[0] + axis[1] * six[1] + axis[2] * six[2]));
    samples.gyr.push(turn.map((axis) => axis[0] * six[3] + axis[1] * six[4] + axis[2] * six[5]));
  }
  return samples;
}

/** A rotation drawn at random: any way of strapping a sensor on, right-handed. */
export function randomTurn(draw: Draw): number[][] {
  const q = [0, 0, 0, 0].map(() => draw.next() - 0.5);
  const length = Math.hypot(...q) || 1;
  const [w, x, y, z] = q.map((value) => value / length);
  return [
    [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
  ];
}
